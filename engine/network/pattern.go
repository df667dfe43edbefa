package network

import "slices"

// pattern is the order of elimination and where each branch stands in it. It
// depends on which nodes are joined only, never on a value, is never changed
// once made, and is shared by every solver of the same topology.
type pattern struct {
	n      int
	at     []int32 // node → position in the order
	node   []int32 // position → node
	start  []int32 // position → first slot of its column; n+1 long
	row    []int32 // slot → neighbour, a later position, ascending; n is earth
	update []int32 // slots that the elimination of each column adds to, in order
	first  []int32 // position → first of its updates; n+1 long
	comes  []come  // what each column is added to by earlier ones, by column
	before []int32 // position → first of its comes; n+1 long
}

// come is what the elimination of an earlier column adds to one: the slot of
// the two, and where the slots that it adds to stand in pattern.update.
type come struct {
	slot, update, count int32
}

// analyse finds the pattern of a network.
func analyse(n *Network) *pattern {
	o := newOrdering(n)
	p := &pattern{n: len(n.Names), at: make([]int32, len(n.Names)), node: make([]int32, 0, len(n.Names))}
	columns := make([][]int32, p.n)
	for k := range p.n {
		v := o.next()
		p.at[v] = int32(k)
		p.node = append(p.node, v)
		columns[k] = o.eliminate(v)
	}
	for _, c := range columns {
		for i, v := range c {
			c[i] = p.position(Node(v))
		}
		slices.Sort(c)
	}
	p.layOut(columns)
	return p
}

// with is the pattern, in the same order, with room for branches between more
// pairs of positions, the earlier first.
func (p *pattern) with(pairs [][2]int32) *pattern {
	columns := make([][]int32, p.n)
	for k := range columns {
		columns[k] = p.row[p.start[k]:p.start[k+1]:p.start[k+1]]
	}
	for _, pair := range pairs {
		widen(columns, pair[0], pair[1:])
	}
	q := &pattern{n: p.n, at: p.at, node: p.node}
	q.layOut(columns)
	return q
}

// widen adds neighbours to a column, and to those after it what elimination
// then carries there.
func widen(columns [][]int32, k int32, more []int32) {
	for int(k) < len(columns) {
		wider := union(columns[k], more)
		if len(wider) == len(columns[k]) {
			return
		}
		columns[k] = wider
		k, more = wider[0], wider[1:]
	}
}

// union merges two ascending lists; a itself is given back if it has all.
func union(a, b []int32) []int32 {
	out := a
	for _, x := range b {
		if i, ok := slices.BinarySearch(out, x); !ok {
			out = slices.Insert(slices.Clip(out), i, x)
		}
	}
	return out
}

// layOut turns the neighbours of each position into slots.
func (p *pattern) layOut(columns [][]int32) {
	total := 0
	for _, c := range columns {
		total += len(c)
	}
	p.start = make([]int32, p.n+1)
	p.row = make([]int32, 0, total)
	for k, c := range columns {
		p.row = append(p.row, c...)
		p.start[k+1] = int32(len(p.row))
	}
	p.schedule()
}

// schedule lists, for every pair of neighbours of each column, the slot their
// new branch falls into, and for every column what falls into it.
func (p *pattern) schedule() {
	p.first, p.before = make([]int32, p.n+1), make([]int32, p.n+1)
	for k := range p.n {
		s := p.row[p.start[k]:p.start[k+1]]
		m := int32(len(s))
		p.first[k+1] = p.first[k] + m*(m-1)/2
		for _, a := range s[:max(0, len(s)-1)] {
			p.before[a+1]++
		}
	}
	for k := range p.n {
		p.before[k+1] += p.before[k]
	}
	p.update = make([]int32, 0, p.first[p.n])
	p.comes = make([]come, p.before[p.n])
	next := slices.Clone(p.before)
	for k := range p.n {
		s := p.row[p.start[k]:p.start[k+1]]
		for i, a := range s[:max(0, len(s)-1)] {
			p.comes[next[a]] = come{p.start[k] + int32(i), int32(len(p.update)), int32(len(s) - 1 - i)}
			next[a]++
			p.into(a, s[i+1:])
		}
	}
}

// into appends the slots that the branches between one neighbour and later ones
// fall into.
func (p *pattern) into(a int32, rest []int32) {
	column := p.row[p.start[a]:]
	j := 0
	for _, b := range rest {
		for column[j] != b {
			j++
		}
		p.update = append(p.update, p.start[a]+int32(j))
	}
}

// slot is where a branch between two positions is stamped: -1 for a branch from
// a node to itself, which carries nothing, and false if there is no place.
func (p *pattern) slot(x, y int32) (int32, bool) {
	if x == y {
		return -1, true
	}
	if x > y {
		x, y = y, x
	}
	i, ok := slices.BinarySearch(p.row[p.start[x]:p.start[x+1]], y)
	return p.start[x] + int32(i), ok
}

// position is a node's place in the order; earth's is after all.
func (p *pattern) position(a Node) int32 {
	if a == Earth {
		return int32(p.n)
	}
	return p.at[a]
}
