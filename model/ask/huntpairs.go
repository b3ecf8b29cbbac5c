package ask

import (
	"context"
	"slices"

	"brightset/catalog"
	"brightset/solver"
	"brightset/solver/parallel"
)

// mostPairs bounds the pairs looked at.
const mostPairs = 12

// pairs looks at finds for slots of one match group or one part: what the two are
// worth together, where that differs from the sum.
func (h *hunt) pairs(ctx context.Context, out *Hunted) error {
	if !out.Plan.Has {
		return nil
	}
	var all []PairFind
	for a := range out.Finds {
		for b := a + 1; b < len(out.Finds) && len(all) < mostPairs; b++ {
			if h.akin(out.Finds[a].Slot, out.Finds[b].Slot) {
				all = append(all, PairFind{A: a, B: b})
			}
		}
	}
	asked := make([]answered, len(all))
	share := newShares(ctx, len(all))
	err := parallel.Do(ctx, len(all), func(i int) (err error) {
		within, done := share.Next(ctx)
		defer done()
		asked[i], err = h.weigh(within, out, &all[i])
		return err
	})
	for i, p := range all {
		a, b := &out.Finds[p.A], &out.Finds[p.B]
		differs := p.Together > a.Most+b.Most || p.Most < a.Worth+b.Worth
		switch {
		case asked[i] == notKnown:
			out.Whole = false
		case asked[i] == neverBoth:
		case differs:
			out.Pairs = append(out.Pairs, p)
		case p.Together < p.Most || a.Stopped || b.Stopped:
			out.Whole = false // whether they are worth something else together is not known
		}
	}
	return err
}

// answered is what came of asking about a pair.
type answered int

const (
	notKnown  answered = iota // time was up before any set with both was found
	neverBoth                 // no set has both
	weighed
)

// weigh works out what two finds are worth together, with the cheapest set with both.
func (h *hunt) weigh(ctx context.Context, out *Hunted, p *PairFind) (answered, error) {
	a, b := out.Finds[p.A].place, out.Finds[p.B].place
	with, err := h.ask(ctx, a, b)
	switch {
	case err != nil || !with.Has && with.Status != solver.Infeasible:
		return notKnown, err
	case !with.Has:
		return neverBoth, nil
	}
	p.Together, p.Most, err = h.between(ctx, out.Plan, with, a, b)
	return weighed, err
}

// akin says whether two different slots are seen together or take the same part.
func (h *hunt) akin(a, b int) bool {
	if a == b {
		return false
	}
	if h.st.Slots[a].Part == h.st.Slots[b].Part {
		return true
	}
	return slices.ContainsFunc(h.st.Matches, func(m catalog.Match) bool {
		return slices.Contains(m.Slots, a) && slices.Contains(m.Slots, b)
	})
}
