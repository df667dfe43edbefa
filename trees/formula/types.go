package formula

import "fmt"

// mistyped says what is wrong with the types of a part's operands; empty if nothing is.
func (n *Node) mistyped(types []Type) string {
	switch n.Op {
	case Compare:
		return n.compared(types[0], types[1])
	case Choice:
		if types[0] == Wordy {
			return "a word stands before the ?; expected what is true or false"
		}
		if apart(types[1], types[2]) {
			return "one way of the choice gives a word and the other a number; expected the same of both"
		}
		return ""
	}
	for i, t := range types {
		if t == Wordy {
			return fmt.Sprintf("%q takes numbers, true and false; operand %d is a word, which only == and != compare", n.Name, i+1)
		}
	}
	return ""
}

func (n *Node) compared(left, right Type) string {
	switch {
	case apart(left, right):
		return fmt.Sprintf("%q compares %s with %s, which are never the same kind of thing", n.Name, left, right)
	case (left == Wordy || right == Wordy) && n.Name != "==" && n.Name != "!=":
		return fmt.Sprintf("%q compares words; expected == or !=, for words have no order", n.Name)
	}
	return ""
}

func apart(a, b Type) bool { return a != Untyped && b != Untyped && a != b }
