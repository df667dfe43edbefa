package formula

// Compile turns a formula into a value over the states of one plant. What does
// not depend on the state is worked out now, and what a constant leaves no
// way to is not resolved at all: has("pump") and part("pump").runs is false
// where there is no pump. There are no errors, or no value.
func Compile[S any](f *Formula, r Resolver[S]) (Value[S], Errors) {
	c := &compiler[S]{resolver: r}
	v := c.node(f.Root)
	if len(c.errors) > 0 {
		return Value[S]{}, c.errors
	}
	return v, nil
}

type compiler[S any] struct {
	resolver Resolver[S]
	errors   Errors
}

// refuse records an error and gives something harmless.
func (c *compiler[S]) refuse(e Error) Value[S] {
	c.errors = append(c.errors, e)
	return Value[S]{Type: Untyped, Get: func(S) float64 { return 0 }}
}

func (c *compiler[S]) node(n *Node) Value[S] {
	switch n.Op {
	case Number:
		return Constant[S](n.Value)
	case Word:
		return Value[S]{Type: Wordy, Known: true, Number: c.resolver.Words.ID(n.Name)}
	case Name:
		return c.resolved(n, func() (Value[S], error) { return c.resolver.Name(n.Name) })
	case Logic:
		return c.logic(n)
	case Choice:
		return c.choice(n)
	case Function:
		if functions[n.Name].words > 0 || n.Name == "swings" {
			return c.call(n)
		}
	}
	return c.operation(n)
}

func (c *compiler[S]) resolved(n *Node, resolve func() (Value[S], error)) Value[S] {
	v, err := resolve()
	if f, function := functions[n.Name]; err != nil && n.Op == Name && function {
		return c.refuse(Error{n.At, n.Name + " needs brackets, as in " + f.example})
	}
	if err != nil {
		return c.refuse(n.placed(err))
	}
	return v
}

func (c *compiler[S]) call(n *Node) Value[S] {
	call := Call[S]{Name: n.Name, Words: n.Words, Field: n.Field, Acts: n.Acts}
	if len(n.Args) == 1 {
		call.Of = c.node(n.Args[0])
	}
	return c.resolved(n, func() (Value[S], error) { return c.resolver.Call(call) })
}

// logic leaves out the right side where the left decides.
func (c *compiler[S]) logic(n *Node) Value[S] {
	left := c.node(n.Args[0])
	decides := n.Name == "or" // what the left must be so that the right does not matter
	if left.Known && left.Type == Numeric && (left.Number != 0) == decides {
		return Truth[S](decides)
	}
	right := c.node(n.Args[1])
	if !c.typed(n, left, right) {
		return right
	}
	switch {
	case left.Known:
		return truthOf(right)
	case right.Known && (right.Number != 0) == decides:
		return Truth[S](decides)
	case right.Known:
		return truthOf(left)
	}
	return Of(Numeric, joined(decides, left.Get, right.Get))
}

func joined[S any](or bool, a, b func(S) float64) func(S) float64 {
	if or {
		return func(s S) float64 { return truth(a(s) != 0 || b(s) != 0) }
	}
	return func(s S) float64 { return truth(a(s) != 0 && b(s) != 0) }
}

func truthOf[S any](v Value[S]) Value[S] {
	if v.Known {
		return Truth[S](v.Number != 0)
	}
	get := v.Get
	return Of(Numeric, func(s S) float64 { return truth(get(s) != 0) })
}

// choice leaves out the way that is never taken.
func (c *compiler[S]) choice(n *Node) Value[S] {
	if when := c.node(n.Args[0]); when.Known && when.Type == Numeric {
		if when.Number != 0 {
			return c.node(n.Args[1])
		}
		return c.node(n.Args[2])
	} else {
		a, b := c.node(n.Args[1]), c.node(n.Args[2])
		c.typed(n, when, a, b)
		f, x, y := when.Func(), a.Func(), b.Func()
		return Of(max(a.Type, b.Type), func(s S) float64 {
			if f(s) != 0 {
				return x(s)
			}
			return y(s)
		})
	}
}

func (c *compiler[S]) typed(n *Node, values ...Value[S]) bool {
	types := make([]Type, len(values))
	for i, v := range values {
		types[i] = v.Type
	}
	message := n.mistyped(types)
	if message != "" {
		c.refuse(Error{n.At, message})
	}
	return message == ""
}
