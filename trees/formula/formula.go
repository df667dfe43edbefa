// Package formula is the language in which models of parts say what they do,
// and in which signs and the answers of a look say when they are so. Use
// [Parse] first: it reads a formula and gives every mistake in it with its
// place. [Compile] then turns it into a function for one plant, with the
// meaning of its names given by a [Resolver].
//
// Every value is a number or a word. True and false are 1 and 0, and any
// number but 0 counts as true. Words can be compared with == and != only.
// There are the operators and, or, not (also &&, ||, !), == != < <= > >=,
// + - * /, ? : and the functions of [Functions]. Names of things always stand
// in quotes: part("diverter").body, volts("live", "neutral").
package formula

import (
	"errors"
	"strings"

	"github.com/expr-lang/expr/conf"
	"github.com/expr-lang/expr/file"
	"github.com/expr-lang/expr/parser"
)

// Formula is a formula that was read and found to use only what formulas may use.
type Formula struct {
	Source string
	Root   *Node
}

// Limits of one formula: trees from outside are hostile, and the parser
// follows brackets and operators by recursion without counting them.
const (
	maxSource  = 2000 // bytes
	maxNesting = 32   // brackets inside one another
	maxNodes   = 500  // parts, as the parser counts them
)

// Parse reads a formula. There are no errors, or no formula.
func Parse(source string) (*Formula, Errors) {
	if err := checkSource(source); err != nil {
		return nil, Errors{*err}
	}
	config := &conf.Config{MaxNodes: maxNodes, DisableIfOperator: true}
	tree, err := parser.ParseWithConfig(source, config)
	if err != nil {
		return nil, Errors{parseError(source, err)}
	}
	g := &grammar{}
	root := g.node(tree.Node)
	if len(g.errors) > 0 {
		return nil, g.errors
	}
	return &Formula{Source: source, Root: root}, nil
}

// parseError takes the message of the library without its drawing, and its place.
func parseError(source string, err error) Error {
	message, _, _ := strings.Cut(err.Error(), "\n")
	message, _, _ = strings.Cut(message, ": strconv.")
	at := 0
	var placed *file.Error
	if errors.As(err, &placed) {
		message, _, _ = strings.Cut(placed.Message, ": strconv.")
		at = placed.From
	}
	message = strings.Replace(message, "unexpected token EOF", "it ends where more was expected", 1)
	hint := ""
	if strings.Contains(message, `Operator("=")`) {
		hint = "; did you mean ==?"
	}
	return Error{At: at, Message: "it cannot be read: " + message + hint}
}
