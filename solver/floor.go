package solver

import "context"

// Floors are, for every column of a group, what no solution with it is below, by what is
// known from earlier solves and without a search: one bound serves them all. -Limit where
// nothing is known, Limit where there is no solution with it.
func (s *Solver) Floors(ctx context.Context, group int) []int64 {
	out := make([]int64, len(s.p.Groups[group].Columns))
	for i := range out {
		out[i] = -Limit
	}
	if s.memory.row == nil {
		return out
	}
	halt := func() bool { return ctx.Err() != nil }
	in, d := s.layout.of(s.p, s.leave, halt).under(s.p, &Change{}, halt)
	if !in.propagate(d) {
		for i := range out {
			out[i] = Limit // no solution at all
		}
		return out
	}
	b := in.lagrangian(d, s.memory.recall(in), true)
	delta := in.deltas(d, b)
	for i := range out {
		out[i] = Limit // what propagation takes out is in no solution
	}
	for c := in.first(d, group); c < in.groups[group][1]; c = d.alive.next(c+1, in.groups[group][1]) {
		with := bound{value: b.value + delta[c], err: 2 * b.err} // as where columns are ruled out
		out[in.cols[c].orig] = with.lower()
	}
	return out
}
