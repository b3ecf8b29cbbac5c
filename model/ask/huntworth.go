package ask

import (
	"context"
	"slices"

	"brightset/model/plan"
	"brightset/solver"
	"brightset/solver/parallel"
)

// values works out what every find is worth, those for the dearest slots first. Each is
// asked about by itself, from what is known of the set without any: what one is worth does
// not depend on which others are looked at, or when. Finds for a slot that come to the same
// lines in the program are one question.
func (h *hunt) values(ctx context.Context, out *Hunted) error {
	order := h.order(out.Plan)
	questions := h.equalFinds(order)
	found := make([]*Find, len(h.finds))
	known := make([]bool, len(questions))
	share := newShares(ctx, len(questions))
	err := parallel.Do(ctx, len(questions), func(n int) error {
		within, done := share.Next(ctx)
		defer done()
		all, whole, err := h.valueAll(within, out.Plan, questions[n])
		for k, f := range all {
			found[questions[n][k]] = f
		}
		known[n] = whole
		return err
	})
	for _, i := range order {
		if found[i] != nil {
			out.Finds = append(out.Finds, *found[i])
		}
	}
	out.Whole = out.Whole && !slices.Contains(known, false)
	return err
}

// valueAll works out what equal finds are worth: with the first, and the set that is the
// cheapest with it is that of the others with their pieces in its place.
func (h *hunt) valueAll(ctx context.Context, base *plan.Plan, finds []int) (all []*Find, known bool, err error) {
	if h.e.GaveUp {
		return nil, false, nil
	}
	res, err := h.e.Solver.Fork().Solve(ctx, solver.Change{Ban: h.ban(finds[0])}, h.e.Set)
	if err != nil || !res.Has {
		return nil, err == nil && res.Status == solver.Infeasible, err
	}
	first, s := h.columnsWith(finds[0]), h.finds[finds[0]].Slot
	at := slices.Index(first, res.Pick[s])
	known = true
	for n, i := range finds {
		res.Pick = slices.Clone(res.Pick)
		res.Pick[s] = h.columnsWith(i)[at]
		with, err := h.e.Finish(res)
		if err != nil {
			return nil, false, err
		}
		var f *Find
		if n > 0 && len(all) > 0 { // what it is worth is known
			same := *all[0]
			same.Profile, same.Metal, same.With, same.Choice = h.finds[i].Profile, h.finds[i].Metal, with, with.Lines[s].Choice
			f = &same
		} else if n == 0 {
			if f, known, err = h.worth(ctx, base, i, with); err != nil {
				return nil, false, err
			}
		}
		if f == nil {
			return nil, known, nil
		}
		all = append(all, f)
	}
	return all, known, nil
}

// equalFinds puts the finds for one slot together whose lines are the same but for the
// piece: order as given, the first of each first.
func (h *hunt) equalFinds(order []int) (all [][]int) {
	for _, i := range order {
		at := slices.IndexFunc(all, func(with []int) bool { return h.sameLines(with[0], i) })
		if at < 0 {
			all = append(all, []int{i})
		} else {
			all[at] = append(all[at], i)
		}
	}
	return all
}

// columnsWith are the columns of the slot of a find in which it is planned.
func (h *hunt) columnsWith(i int) (cols []int) {
	s := h.finds[i].Slot
	if s >= len(h.e.Pairs) {
		return nil
	}
	for c, pair := range h.e.Pairs[s] {
		if h.e.Choices[s][pair.K].Piece == h.first+i {
			cols = append(cols, c)
		}
	}
	return cols
}

// sameLines says whether two finds for a slot come to the same columns, one by one, in
// all that the program asks of a column.
func (h *hunt) sameLines(i, k int) bool {
	s := h.finds[i].Slot
	if h.finds[k].Slot != s || h.e.Problem == nil || s >= len(h.e.Problem.Groups) {
		return false
	}
	a, b := h.columnsWith(i), h.columnsWith(k)
	if len(a) != len(b) {
		return false
	}
	for n := range a {
		x, y := &h.e.Problem.Groups[s].Columns[a[n]], &h.e.Problem.Groups[s].Columns[b[n]]
		if x.Cost != y.Cost || x.Tie != y.Tie || !slices.Equal(x.Terms, y.Terms) ||
			!slices.Equal(x.Needs, y.Needs) || !slices.Equal(x.Loads, y.Loads) {
			return false
		}
		if !h.matchAlike(s, a[n], b[n]) {
			return false
		}
	}
	return true
}

// matchAlike says whether two columns of a group are the same to every match rule.
func (h *hunt) matchAlike(s, a, b int) bool {
	for i := range h.e.Problem.WithinTolerance {
		r := &h.e.Problem.WithinTolerance[i]
		if at := slices.Index(r.Groups, s); at >= 0 && r.Values[at][a] != r.Values[at][b] {
			return false
		}
	}
	for i := range h.e.Problem.AllEqual {
		r := &h.e.Problem.AllEqual[i]
		if at := slices.Index(r.Groups, s); at >= 0 && r.Labels[at][a] != r.Labels[at][b] {
			return false
		}
	}
	return true
}

// worth is what a find is worth with the set that it makes possible: known at once, or
// between what that set proves and what no other may exceed.
func (h *hunt) worth(ctx context.Context, base *plan.Plan, i int, with *plan.Plan) (find *Find, known bool, err error) {
	f := h.finds[i]
	f.With, f.Choice, f.Rescues = with, with.Lines[f.Slot].Choice, !base.Has
	if f.Worth, f.Most, err = h.between(ctx, base, with, i); err != nil {
		return nil, false, err
	}
	f.Stopped = f.Worth < f.Most
	if f.Most == 0 && !f.Rescues {
		return nil, true, nil
	}
	return &f, !f.Stopped, nil
}
