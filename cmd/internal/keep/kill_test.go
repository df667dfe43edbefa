package keep

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"runtime"
	"strconv"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"faultwalk/engine/journal"
)

// The test binary is also the process that is killed, and the one that runs
// out of room.
const (
	envChild = "FAULTWALK_KEEP_CHILD" // the folder it writes to
	envJob   = "FAULTWALK_KEEP_JOB"   // the job it goes on with; empty begins one
	envRoom  = "FAULTWALK_KEEP_ROOM"  // bytes a file may have; empty sets no limit
	envKills = "FAULTWALK_KILLS"      // rounds; 1000 is the long run
)

func TestMain(m *testing.M) {
	if dir := os.Getenv(envChild); dir != "" {
		if err := child(Store{dir}, os.Getenv(envJob)); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

// scripted is event n of a job; any n gives one.
func scripted(id string, n int) journal.Event {
	if n == 1 {
		return opened(id, "")
	}
	said := fmt.Sprintf("answer %d of job %s", n, id)
	switch n % 4 {
	case 0:
		return event(n, &journal.Acted{Act: journal.Act{Do: journal.ActOpen, On: "control-enclosure"}, Outcome: journal.Done, Why: said, Cautions: []string{"several-supplies", "stored-charge"}})
	case 1:
		return event(n, &journal.Read{Step: said, Check: "driven at limit-out calling hot-water", Purpose: journal.ForTree, Verdict: "dead", Expected: "207 – 253 V",
			Values: []journal.Value{{As: "ln", Mode: "low impedance", Meter: "multimeter", Typed: "0.4", Low: 0.4, High: 0.4}}})
	case 2:
		return event(n, &journal.Answered{Ask: "changed", Choice: said})
	}
	return note(n, said)
}

// child goes on with a job for as long as it lives, saying on its output the
// last event of each answer that is stored. Some answers are two events.
func child(s Store, id string) error {
	if err := limitRoom(os.Getenv(envRoom)); err != nil {
		return err
	}
	job, err := start(s, id)
	if err != nil {
		return err
	}
	for n := len(job.Events); ; {
		fmt.Fprintf(os.Stdout, "%s %d\n", job.ID, n)
		events := []journal.Event{scripted(job.ID, n+1)}
		if n%5 == 0 {
			events = append(events, scripted(job.ID, n+2))
		}
		if err := job.Append(events...); err != nil {
			return err
		}
		n += len(events)
	}
}

func start(s Store, id string) (*Job, error) {
	if id != "" {
		return s.Open(id)
	}
	return s.Create(evening, Set{"0a1b2c3d", []byte("trees")}, func(id string) []journal.Event { return []journal.Event{scripted(id, 1)} })
}

// acknowledged reads whole lines until the child's end: what a person was shown.
// It tells of the first.
func acknowledged(t *testing.T, out io.Reader, first func()) (id string, n int) {
	t.Helper()
	r := bufio.NewReader(out)
	for {
		line, err := r.ReadString('\n')
		if err != nil {
			return id, n
		}
		if id == "" {
			first()
		}
		if _, err := fmt.Sscanf(line, "%s %d\n", &id, &n); err != nil {
			t.Fatalf("the child says %q: %v", line, err)
		}
	}
}

func childOf(s Store, env ...string) *exec.Cmd {
	c := exec.Command(os.Args[0])
	c.Env = append(append(os.Environ(), envChild+"="+s.Dir), env...)
	return c
}

// killed runs a child and kills it a while after its start, or after the first
// answer it acknowledges.
func killed(t *testing.T, s Store, job string, atStart bool, after time.Duration) (id string, n int) {
	t.Helper()
	c := childOf(s, envJob+"="+job)
	out, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	kill := func() { time.AfterFunc(after, func() { c.Process.Kill() }) }
	if atStart {
		kill()
		id, n = acknowledged(t, out, func() {})
	} else {
		id, n = acknowledged(t, out, kill)
	}
	var exit *exec.ExitError
	if err := c.Wait(); !errors.As(err, &exit) || exit.Success() || exit.ExitCode() == 1 && runtime.GOOS != "windows" {
		t.Fatalf("the child was not killed: %v", err)
	}
	return id, n
}

// holds opens a job and checks every event up to the last one acknowledged.
func holds(t *testing.T, s Store, id string, n int) (mended bool) {
	t.Helper()
	job, err := s.Open(id)
	if err != nil {
		t.Fatalf("job %s with %d acknowledged events: %v", id, n, err)
	}
	defer job.Close()
	if len(job.Events) < n {
		t.Fatalf("job %s holds %d events; %d were acknowledged", id, len(job.Events), n)
	}
	for i, e := range job.Events {
		if diff := cmp.Diff(scripted(id, i+1), e); diff != "" {
			t.Fatalf("job %s, event %d:\n%s", id, i+1, diff)
		}
	}
	return job.Mended != ""
}

func rounds(t *testing.T) int {
	if text := os.Getenv(envKills); text != "" {
		n, err := strconv.Atoi(text)
		if err != nil || n < 1 {
			t.Fatalf("%s is %q; expected a number of rounds", envKills, text)
		}
		return n
	}
	if testing.Short() {
		return 10
	}
	return 100
}

// TestAKilledProcessLosesNoAcknowledgedAnswer kills a process at random moments
// of a job: while it starts, begins or mends a journal, writes, or waits for the
// disk. Ten rounds go on with one job. FAULTWALK_KILLS=1000 is the long run.
func TestAKilledProcessLosesNoAcknowledgedAnswer(t *testing.T) {
	t.Parallel()
	s := Store{t.TempDir()}
	job, total, mended := "", 0, 0
	acked := map[string]int{}
	for round := range rounds(t) {
		if round%10 == 1 {
			job = ""
		}
		id, n := killed(t, s, job, round%2 == 0, time.Duration(rand.Int64N(int64(40*time.Millisecond))))
		if id == "" {
			id = job // killed before it said anything
		}
		if id == "" {
			continue
		}
		total += max(0, n-acked[id])
		acked[id] = max(n, acked[id])
		if job = id; holds(t, s, id, acked[id]) {
			mended++
		}
	}
	if total == 0 {
		t.Error("nothing was ever acknowledged: the test shows nothing")
	}
	t.Logf("%d rounds, %d jobs, %d acknowledged events, none lost; %d journals mended", rounds(t), len(acked), total, mended)
}
