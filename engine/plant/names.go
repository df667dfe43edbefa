package plant

import (
	"fmt"

	"faultwalk/engine/network"
	"faultwalk/trees/spelling"
	"faultwalk/trees/strict"
)

func hint(name string, known []string) string {
	return spelling.DidYouMean(name, known)
}

func problemAt(pos strict.Pos, format string, args ...any) strict.Problem {
	return strict.Problem{File: pos.File, Line: pos.Line, Col: pos.Col, Message: fmt.Sprintf(format, args...)}
}

func truth(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// nodeOf is the node of a place of the plant: a point, a part's terminal
// "part.terminal" or a core's end "core:from".
func (m *Model) nodeOf(name string) (network.Node, bool) { return m.net.Find(name) }
