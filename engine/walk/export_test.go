package walk

import "faultwalk/engine/journal"

// Borrow has a job use the plants and trees another one has composed and bound,
// so that thousands of jobs in a row need not do it each. Both are of one
// library and jurisdiction; nothing that was answered comes along.
func (j *Job) Borrow(from *Job) {
	j.lib, j.prover, j.edges, j.plants, j.graphs = from.lib, from.prover, from.edges, from.plants, from.graphs
}

// ResumeLike is Resume with what another job has composed and bound.
func ResumeLike(from *Job, events []journal.Event) *Job {
	j := &Job{events: events}
	j.Borrow(from)
	j.derive()
	j.rebuild()
	return j
}
