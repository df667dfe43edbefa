package trees

import (
	"errors"
	"fmt"
	"strings"

	"github.com/expr-lang/expr/file"
)

// Limits on expressions: the parser itself does not count brackets, and a
// million of them would overflow the stack.
const (
	maxExpression = 512 // bytes
	maxNesting    = 32
)

// tame refuses an expression that is too long or nested too deep to be parsed safely.
func tame(text string) error {
	if len(text) > maxExpression {
		return fmt.Errorf("the expression has %d bytes; at most %d are read", len(text), maxExpression)
	}
	depth := 0
	for _, r := range text {
		switch r {
		case '(', '[', '{':
			depth++
		case ')', ']', '}':
			depth--
		}
		if depth > maxNesting {
			return fmt.Errorf("brackets nest deeper than %d", maxNesting)
		}
	}
	return nil
}

// oneLine takes the message of an expression error without its drawing.
func oneLine(err error) error {
	var fe *file.Error
	if errors.As(err, &fe) {
		return errors.New(fe.Message)
	}
	m, _, _ := strings.Cut(err.Error(), "\n")
	return errors.New(m)
}
