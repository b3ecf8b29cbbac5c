package solver

import "container/heap"

// node is a domain still to be searched.
type node struct {
	d      *domain
	y      *duals
	pool   *pool
	value  float64 // proven bound
	depth  int
	seq    int
	dearer float64 // how dear the node above had to make exceeding a row
	idle   bool    // keeping a row whole ruled nothing out in the node above
}

// nodeQueue gives the node of least bound first; of equal ones the deepest, then
// the oldest.
type nodeQueue []*node

func (q nodeQueue) Len() int { return len(q) }
func (q nodeQueue) Less(i, j int) bool {
	a, b := q[i], q[j]
	if a.value != b.value {
		return a.value < b.value
	}
	if a.depth != b.depth {
		return a.depth > b.depth
	}
	return a.seq < b.seq
}
func (q nodeQueue) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q *nodeQueue) Push(x any)   { *q = append(*q, x.(*node)) }
func (q *nodeQueue) Pop() any {
	old := *q
	n := old[len(old)-1]
	*q = old[:len(old)-1]
	return n
}

func (s *search) push(n *node) {
	n.seq = s.seq
	s.seq++
	heap.Push(&s.queue, n)
}
