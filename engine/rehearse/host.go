package rehearse

import (
	"hash/fnv"
	"math/rand/v2"
)

// host is a plant with a fault in it, and what it answered so far: to every
// person alike.
type host struct {
	bench   *bench
	sub     subject
	fault   *fault
	draw    int
	seed    uint64 // of this draw of this fault
	known   map[asked]answered
	proved  map[string]found
	changed bool // a walk moved the plant for good
}

// asked is a check, how it is read and how the plant stands for it.
type asked struct{ state, check, with string }

// put puts a fault into the plant; draw 0 is nominal.
func (h *host) put(f *fault, seed uint64, draw int) {
	h.fault, h.draw, h.changed = f, draw, false
	var with *uint64
	if draw > 0 {
		h.seed = drawn(seed, h.bench.plant.ID+"\n"+f.id, draw)
		with = &h.seed
	}
	if h.sub == nil {
		h.sub = h.bench.model.subject(f, with)
	} else {
		h.sub.be(f, with)
	}
	if h.known == nil {
		h.known, h.proved = map[asked]answered{}, map[string]found{}
	}
	clear(h.known)
	clear(h.proved)
}

// errors are the meters' errors in one walk; nil for perfect meters.
func (h *host) errors(symptom string) *rand.Rand {
	if h.draw == 0 {
		return nil
	}
	return rand.New(rand.NewPCG(h.seed, drawn(h.seed, symptom, h.draw)))
}

// drawn is the seed of one draw of something, by its name.
func drawn(seed uint64, name string, draw int) uint64 {
	h := fnv.New64a()
	h.Write([]byte(name))
	return h.Sum64() ^ (seed*0x9e3779b97f4a7c15 + uint64(draw)*0xbf58476d1ce4e5b9)
}
