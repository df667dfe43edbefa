package network

// column is the flow of one ampere fed into a and taken out of b, with all
// EMFs off.
type column[T scalar] struct {
	flow  flow[T]
	of    *pattern // what the flow last ran on: what was asked then is asked of no other
	known bool     // for a and b and the admittances as they are
	a, b  Node
	apart bool // no current can flow from a to b
}

// find brings the column to a and b. Its room is made when it is first wanted.
func (c *column[T]) find(f *factor[T], a, b Node) {
	if c.known && c.a == a && c.b == b {
		return
	}
	p, w := f.p, &c.flow
	if len(w.push) != len(p.row) || len(w.volts) != p.n+1 {
		w.start(p)
	}
	if c.of != p {
		c.of, w.asked = p, w.asked[:0]
	}
	c.known, c.a, c.b = true, a, b
	w.forget()
	x, y := p.position(a), p.position(b)
	w.reach(p, x)
	w.reach(p, y)
	w.still(p)
	c.apart = !c.link(f, x, y)
	if c.apart {
		return
	}
	w.spread(f)
}

// link leads the ampere from x to y by a chain of pushes, each from a node to
// that neighbour most of its current goes to: the two ends then meet within
// the circuit both belong to, and none of it strays through what joins that
// circuit to others. It gives false if there is no way.
func (c *column[T]) link(f *factor[T], x, y int32) bool {
	for x != y {
		if x < y {
			x = c.step(f, x, -1)
		} else {
			y = c.step(f, y, 1)
		}
		if x < 0 || y < 0 {
			return false
		}
	}
	return true
}

// step pushes amps from a position to its strongest neighbour and gives that,
// or -1 if it has none.
func (c *column[T]) step(f *factor[T], k int32, amps T) int32 {
	slot := f.strongest(k)
	if slot < 0 {
		return -1
	}
	c.flow.push[slot] += amps
	return f.p.row[slot]
}

// across is the impedance between the two nodes.
func (c *column[T]) across(f *factor[T]) T {
	return c.flow.at(f, f.p.position(c.a)) - c.flow.at(f, f.p.position(c.b))
}
