package ask

import (
	"context"
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// contest is one program in which one of several ways in which figures of spares may turn out
// comes about, whichever saves most: beside every choice stands what would become of it, and a
// set has one of these in it at most. The plan makes no use of them, and costs what it costs now; a
// set without any of them costs no less. So what is below the plan is what knowing the figure
// saves. One question tells of the way that saves most; left out, the next of the one after
// it; and one that finds nothing tells of all that are left.
//
// A bag of pieces may be used in several lines, some as they are, or with another bag: then no
// way saves more than what is found, and it has to be asked what those in it save.
type contest struct {
	ways []*asking
	pl   *plan.Plan
	e    *program.Explorer
	out  []bool        // ways that are through with
	ban  []solver.Pick // their columns
}

// inContest is about how many ways are put together at most.
const inContest = 150

// contests puts ways together that can be asked about together, those of one figure in one
// contest; the others are for themselves.
func contests(ways []asking) (groups [][]*asking, single []*asking) {
	for i := range ways {
		w := &ways[i]
		if w.of.Planned || w.choice == nil {
			single = append(single, w)
			continue
		}
		n := len(groups)
		if n == 0 || len(groups[n-1]) >= inContest && groups[n-1][len(groups[n-1])-1].of != w.of {
			groups, n = append(groups, nil), n+1
		}
		groups[n-1] = append(groups[n-1], w)
	}
	return groups, single
}

// usedOnce says whether no two slots can use a piece.
func usedOnce(st *catalog.State, piece int) bool {
	p, slots := &st.Pieces[piece], 0
	for s := range st.Slots {
		if choice.FitsSlot(p, s) {
			slots++
		}
	}
	return slots <= 1 || choice.PieceCount(p) == 1
}

// newContest makes the program. It knows what base does.
func newContest(ctx context.Context, base *program.Explorer, pl *plan.Plan, ways []*asking) (*contest, error) {
	opt := program.Options{GiveUp: program.Over(ctx)}
	var pieces []int
	for _, w := range ways {
		opt.Beside = append(opt.Beside, program.Variant{Piece: w.of.Piece, Plater: w.of.Plater, Change: w.choice})
		pieces = append(pieces, w.of.Piece)
	}
	e, err := base.After(base.Again(base.State, opt, pieces...))
	return &contest{ways: ways, pl: pl, e: e, out: make([]bool, len(ways))}, err
}

// winner is the outcome of a contest.
type winner struct {
	ways   []*asking     // in the set that saves most; none where none saves so much
	gain   catalog.Cents // by it
	most   catalog.Cents // that any of those left saves; catalog.MaxSum: not known
	proven bool
	exact  bool // it is one way's, and what that saves
	beaten bool // by a set without any: the plan was not proven, and is not the cheapest
}

// next is the way left that saves most, and so much at least.
func (c *contest) next(ctx context.Context, least catalog.Cents) (winner, error) {
	now := c.pl.Weighed()
	below := int64(now - least + 1)
	res, err := c.e.Least(ctx, solver.Change{Ban: c.ban, Below: &below})
	switch {
	case err != nil:
		return winner{}, err
	case res.Status == solver.Infeasible:
		return winner{most: least - 1, proven: true}, nil
	}
	out := winner{most: catalog.Cents(catalog.MaxSum), proven: res.Status == solver.Optimal}
	if res.Bound > -catalog.MaxSum {
		out.most = now - catalog.Cents(res.Bound)
	}
	if !res.Has {
		return out, nil
	}
	out.gain = now - catalog.Cents(res.Total)
	for s, column := range res.Pick {
		if v := c.e.VariantOf(s, column); v != catalog.None && !slices.Contains(out.ways, c.ways[v]) {
			out.ways = append(out.ways, c.ways[v])
		}
	}
	out.beaten = len(out.ways) == 0
	out.exact = len(out.ways) == 1 && usedOnce(c.e.State, out.ways[0].of.Piece)
	return out, nil
}

// leave has ways out of it from now on.
func (c *contest) leave(ways ...*asking) {
	for v, w := range c.ways {
		if !c.out[v] && slices.Contains(ways, w) {
			c.out[v] = true
			c.ban = append(c.ban, c.e.WithVariant(v)...)
		}
	}
}

// left are the ways that are still in it.
func (c *contest) left() (all []*asking) {
	for v, w := range c.ways {
		if !c.out[v] {
			all = append(all, w)
		}
	}
	return all
}

// settle finds out what each way saves: as far as there is time, else between what and what.
func (c *contest) settle(ctx context.Context, base *program.Explorer) error {
	for left := c.left(); len(left) > 0 && !c.e.GaveUp; left = c.left() {
		won, err := c.next(ctx, 1)
		if err != nil {
			return err
		}
		through := won.through(left)
		for _, w := range through {
			switch in := slices.Contains(won.ways, w); {
			case won.beaten, in && won.proven && !won.exact:
				err = w.alone(ctx, base, c.pl)
			case in && won.exact:
				w.settled(won.gain, won.most)
			default:
				w.settled(0, won.most)
			}
			if err != nil {
				return err
			}
		}
		c.leave(through...)
	}
	return nil
}

// through are the ways of which all is known then, or all that can be.
func (w *winner) through(left []*asking) []*asking {
	if !w.proven || w.beaten || len(w.ways) == 0 {
		return left
	}
	return w.ways
}

// settled notes what a way saves, at least and at most.
func (w *asking) settled(gain, most catalog.Cents) { w.gain, w.most, w.asked = gain, most, true }

// alone asks about a way by itself.
func (w *asking) alone(ctx context.Context, base *program.Explorer, pl *plan.Plan) error {
	gain, most, err := gainWith(ctx, base, pl, w.of, w.turnout)
	w.settled(gain, most)
	return err
}

// screened are the figures of a contest that may be worth what they cost to find out.
func (c *contest) screened(ctx context.Context, st *catalog.State) (good []*uncertain, err error) {
	for left := c.left(); len(left) > 0; left = c.left() {
		least := catalog.Cents(catalog.MaxSum)
		for _, w := range left {
			least = min(least, w.of.worthwhile(st))
		}
		won, err := c.next(ctx, least)
		if err != nil {
			return nil, err
		}
		through := won.through(left)
		for _, w := range through {
			if w.of.worthwhile(st) <= won.most && !slices.Contains(good, w.of) {
				good = append(good, w.of)
			}
		}
		for _, w := range left {
			if slices.ContainsFunc(through, func(k *asking) bool { return k.of == w.of }) {
				c.leave(w)
			}
		}
	}
	return good, nil
}
