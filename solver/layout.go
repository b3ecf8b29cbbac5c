package solver

import (
	"slices"
	"sync"
)

// layout is the instance of a problem as it stands. It is laid out once, for all solves
// of all forks: what a change shuts out is left out of the domain instead, so that most of
// it is ruled out by what is known before anything is laid out anew.
type layout struct {
	sync.Mutex
	in *instance
}

// of gives the layout of a problem, its blocks found. One that was cut short is not kept.
func (l *layout) of(p *Problem, leave without, halt func() bool) *instance {
	l.Lock()
	defer l.Unlock()
	if l.in != nil {
		return l.in
	}
	in := newInstance(p, &Change{}, leave)
	in.halt = halt
	in.findBlocks(false)
	if !halt() {
		l.in = in
	}
	return in
}

// under is the instance under a change, and what of it that leaves possible; nil where the
// change makes other rows or charges of it, or rules that don't hold.
func (in *instance) under(p *Problem, ch *Change, halt func() bool) (*instance, *domain) {
	if len(ch.Off)+len(ch.Fixed) > 0 {
		return nil, nil
	}
	out := *in
	out.halt, out.rows = halt, slices.Clone(in.rows)
	for _, l := range ch.Limits {
		r := slices.IndexFunc(out.rows, func(k row) bool { return k.orig == l.Row })
		limit := l.Limit
		if p.Rows[l.Row].Sense == AtLeast {
			limit = -limit
		}
		if r < 0 || limit >= Limit || !out.rows[r].dense && !out.rows[r].charges {
			return nil, nil // what goes together in a block hangs on the limits of small rows
		}
		out.rows[r].limit = limit
	}
	out.blocks = slices.Clone(in.blocks)
	for i := range out.blocks {
		out.blocks[i].halt = halt
	}
	if len(ch.Costs) > 0 {
		out.cols = slices.Clone(in.cols)
		for _, c := range ch.Costs {
			out.cols[out.groups[c.Group][0]+c.Column].cost = c.Cost
		}
		out.widen()
	}
	d := out.fullDomain()
	for _, b := range ch.Ban {
		d.alive.drop(out.groups[b.Group][0] + b.Column)
	}
	for _, f := range ch.Fix {
		span := out.groups[f.Group]
		for c := d.alive.next(span[0], span[1]); c < span[1]; c = d.alive.next(c+1, span[1]) {
			if c != span[0]+f.Column {
				d.alive.drop(c)
			}
		}
	}
	return &out, d
}

// begin lays the problem out under the change. False: some group has nothing left.
func (s *search) begin() (*domain, bool) {
	var d *domain
	if s.layout != nil && s.memory.row != nil { // else nothing is known that could rule out much
		s.in, d = s.layout.of(s.p, s.leave, s.halted).under(s.p, &s.ch, s.halted)
	}
	if d == nil {
		s.in = newInstance(s.p, &s.ch, s.leave)
		s.in.halt = s.halted
		d = s.in.fullDomain()
	}
	return d, !s.in.someEmpty(d)
}
