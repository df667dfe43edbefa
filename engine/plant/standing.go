package plant

import (
	"maps"
	"slices"
	"sort"
	"strings"

	"faultwalk/trees"
)

// Standing is how the plant stands for a reading: what is called, which
// devices are off and which plugs are parted.
type Standing struct {
	Calls     map[string]bool
	Off       map[string]bool
	Unplugged []string
	Lifted    []string // parts and cores whose ends are off
	Worked    []string // switches of which a hand holds the valve open
}

// key tells standings apart.
func (st Standing) key() string {
	return Those(st.Calls) + "|" + Those(st.Off) + "|" + strings.Join(st.Unplugged, " ") + "|" + strings.Join(st.Lifted, " ") + "|" + strings.Join(st.Worked, " ")
}

// atRest is the key of a plant with nothing called and everything in place.
var atRest = Standing{}.key()

// Those writes the words of a set that are true as one, in order: what tells two
// sets of calls, or of devices, apart.
func Those(set map[string]bool) string { return strings.Join(trees.Chosen(set), " ") }

// mostCalls is how many calls a plant may have for every set of them to be
// tried: 64 sets. Plants from outside may have any number.
const mostCalls = 6

// CallSets lists every set of a plant's calls, the empty one first; of more
// than six calls none, each alone and all.
func CallSets(p *trees.Plant) (out []map[string]bool) {
	if len(p.Calls) > mostCalls {
		all := map[string]bool{}
		out = append(out, map[string]bool{})
		for _, c := range p.Calls {
			all[c.ID] = true
			out = append(out, map[string]bool{c.ID: true})
		}
		return append(out, all)
	}
	for set := range 1 << len(p.Calls) {
		made := map[string]bool{}
		for i, c := range p.Calls {
			made[c.ID] = set>>i&1 == 1
		}
		out = append(out, made)
	}
	return out
}

// stand brings the plant into a standing, from rest, and solves its network.
func (s *Subject) stand(st Standing) {
	s.bring(st)
	s.fresh()
}

// bring is stand for what may never look at the network.
func (s *Subject) bring(st Standing) { s.bringAs(st.key(), st) }

// bringAs is bring where the key of the standing is known.
func (s *Subject) bringAs(key string, st Standing) {
	s.work(st.Worked)
	if known := s.settled[key]; known != nil {
		if s.at != known {
			s.load(known)
		}
		return
	}
	s.part(s.m.parted(st))
	s.back()
	s.at = nil
	for c, on := range st.Calls {
		if i, ok := s.m.varAt["call "+c]; ok && on {
			s.v[i] = 1
		}
	}
	for d, off := range st.Off {
		if i, ok := s.m.varAt["device "+d+" on"]; ok && off {
			s.v[i] = 0
		}
	}
	s.settle()
	s.keep(key)
}

// parted lists the branches that plugs and lifted ends open.
func (m *Model) parted(st Standing) []int {
	var out []int
	open := func(name string) {
		if i, ok := m.branchAt[name]; ok {
			out = append(out, i)
		}
	}
	for _, id := range st.Unplugged {
		plug := m.Plant.Plug(id)
		if plug == nil {
			continue
		}
		for _, t := range plugTerminals(m.Plant, plug) {
			open(plug.Of + "@" + t)
		}
	}
	for _, id := range st.Lifted {
		if p := m.Plant.Part(id); p != nil {
			for t := range p.Terminals {
				open(id + "@" + t)
			}
			continue
		}
		open(id + "@from")
		open(id + "@to")
	}
	sort.Ints(out)
	return out
}

func plugTerminals(p *trees.Plant, plug *trees.Plug) []string {
	if len(plug.Terminals) > 0 {
		return plug.Terminals
	}
	if part := p.Part(plug.Of); part != nil {
		return slices.Sorted(maps.Keys(part.Terminals))
	}
	return nil
}
