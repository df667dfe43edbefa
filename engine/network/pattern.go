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
	p.layOut(columns)
	p.schedule()
	return p
}

// layOut turns the neighbours of each eliminated node into slots.
func (p *pattern) layOut(columns [][]int32) {
	p.start = make([]int32, p.n+1)
	for k, nodes := range columns {
		for _, v := range nodes {
			if v == earthed {
				p.row = append(p.row, int32(p.n))
			} else {
				p.row = append(p.row, p.at[v])
			}
		}
		slices.Sort(p.row[p.start[k]:])
		p.start[k+1] = int32(len(p.row))
	}
}

// schedule lists, for every pair of neighbours of each column, the slot their
// new branch falls into.
func (p *pattern) schedule() {
	p.first = make([]int32, p.n+1)
	for k := range p.n {
		s := p.row[p.start[k]:p.start[k+1]]
		for i, a := range s {
			column := p.row[p.start[a]:]
			j := 0
			for _, b := range s[i+1:] {
				for column[j] != b {
					j++
				}
				p.update = append(p.update, p.start[a]+int32(j))
			}
		}
		p.first[k+1] = int32(len(p.update))
	}
}

// slot is where a branch between two nodes is stamped: -1 for a branch from a
// node to itself, which carries nothing, and false if the pattern has no place.
func (p *pattern) slot(a, b Node) (int32, bool) {
	if a == b {
		return -1, true
	}
	x, y := p.position(a), p.position(b)
	if x > y {
		x, y = y, x
	}
	i, ok := slices.BinarySearch(p.row[p.start[x]:p.start[x+1]], y)
	return p.start[x] + int32(i), ok
}

// column is where the slot of a branch stands: the earlier of its nodes.
func (p *pattern) column(a, b Node) int32 { return min(p.position(a), p.position(b)) }

// position is a node's place in the order; earth's is after all.
func (p *pattern) position(a Node) int32 {
	if a == Earth {
		return int32(p.n)
	}
	return p.at[a]
}
