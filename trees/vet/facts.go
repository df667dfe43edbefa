package vet

import (
	"strings"

	"faultwalk/trees"
)

// The fact that says which supply feeds the board, and the point of the board
// that shows it.
const (
	boardFed  = "board-fed"
	boardLive = "permanent-live"
)

// facts compares what a plant says of itself with its wiring.
func (v *vetting) facts(p *trees.Plant) {
	for _, f := range p.Facts {
		if f.ID == boardFed && p.Point(boardLive) != nil {
			v.boardFed(p, f)
		}
	}
}

func (v *vetting) boardFed(p *trees.Plant, f trees.Fact) {
	fed := p.FedBy(boardLive)
	if len(fed) == 1 && fed[0] == f.Is {
		return
	}
	wired := "no supply"
	if len(fed) > 0 {
		wired = joined(fed)
	}
	v.at(v.set.Plants[p.ID].Pos, Fact, "the fact "+quoted(f.ID)+" is "+quoted(f.Is)+"; by the wiring "+strings.TrimSpace(wired)+" feeds "+quoted(boardLive))
}
