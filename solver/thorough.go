package solver

import "slices"

// A search that is not over after so many nodes is begun again, and from there on tries first
// the cuts that are likely to leave one side, in the nodes near the root all of them: that
// finds what can't be, which rules out a column or settles a switch for all below. Short
// searches are over sooner without. Where three rows are tight it is a few hundred nodes
// instead of tens of thousands.
const (
	mostCursory     = 250
	fewCursory      = 1 // where a test asks for next to none
	cursoryTries    = 12
	cursoryPatience = 6
	trusted         = 8 // trials of a kind of cut, then it isn't tried any more
	thoroughTries   = 100
	thoroughDepth   = 5 // below it a node's cuts are tried until so many in a row were no better
	deepPatience    = 6
)

// lengthy says whether it is time to be thorough.
func (s *search) lengthy() bool {
	return !s.thorough && (s.nodes >= mostCursory || s.leave.cursory && s.nodes >= fewCursory)
}

// startOver puts one node in the place of all that wait, which holds all that they do.
func (s *search) startOver() {
	s.thorough = true
	if len(s.queue) < 2 {
		return
	}
	first := s.queue[0]
	d := &domain{alive: newBits(len(s.in.cols)), y: slices.Clone(first.d.y)}
	for _, n := range s.queue {
		d.alive.join(n.d.alive)
		for h, way := range n.d.y {
			if d.y[h] != way {
				d.y[h] = open
			}
		}
	}
	s.queue = nil
	s.push(&node{d: d, y: first.y, pool: first.pool, value: first.value})
	if d.alive.count() < len(s.in.cols) {
		s.compact(d.alive)
	}
}
