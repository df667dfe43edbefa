package journal

import "fmt"

// KindOf gives the kind of event a body belongs to. Anything that is no body
// of this package is the programmer's error and panics.
func KindOf(body any) string {
	switch body.(type) {
	case *Opened:
		return KindOpened
	case *Answered:
		return KindAnswered
	case *Handed:
		return KindHanded
	case *Acted:
		return KindActed
	case *Read:
		return KindRead
	case *Skipped:
		return KindSkipped
	case *Turned:
		return KindTurned
	case *Retracted:
		return KindRetracted
	case *Repaired:
		return KindRepaired
	case *Noted:
		return KindNoted
	case *Stopped:
		return KindStopped
	case *Resumed:
		return KindResumed
	case *Closed:
		return KindClosed
	}
	panic(fmt.Sprintf("journal: %T is no event body", body))
}
