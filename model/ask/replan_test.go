package ask

import (
	"math/rand/v2"
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/check"
	"brightset/model/internal/adapter"
	"brightset/model/internal/jobs"
	"brightset/model/internal/solved"
	"brightset/model/plan"
	"brightset/testdata/campaign"
)

// TestReplanNotDearer: after whatever happened, the new plan costs no more than the old
// one carried on: its choices where they still can be, else what was held in reserve.
func TestReplanNotDearer(t *testing.T) {
	compared, cheaper, stuck := 0, 0, 0
	by := map[string]int{}
	all := campaign.Cases(800, 2500)
	for seed := range int64(all) {
		st := jobs.Random(seed, 1+int(seed%4), jobs.Options{})
		was := solved.Cheapest(t, st)
		if !was.Has {
			continue
		}
		events := happens(rand.New(rand.NewPCG(uint64(seed), 33)), st, was)
		now := solved.Cheapest(t, st)
		old := carriedOn(st, was)
		if old == nil {
			stuck++
			continue
		}
		if bad := check.Check(st, old); len(bad) > 0 {
			if slices.ContainsFunc(bad, func(v check.Violation) bool { return slices.Contains(sums, v.Rule) }) {
				t.Errorf("seed %d: the old plan is not added up right: %v", seed, bad)
			}
			stuck++
			continue
		}
		compared++
		for _, e := range events {
			by[e]++
		}
		if !now.Has || now.Weighed() > old.Weighed() {
			t.Errorf("seed %d, after %v: %v, planned again %d, carried on %d", seed, events, now.Status, now.Weighed(),
				old.Weighed())
		}
		if now.Has && now.Weighed() < old.Weighed() {
			cheaper++
		}
	}
	t.Logf("%d compared, %d of them cheaper planned again, %d could not be carried on; %v", compared, cheaper, stuck,
		by)
	if compared < all/4 || cheaper < all/20 || stuck < all/15 {
		t.Errorf("%d compared, %d of them cheaper planned again, %d could not be carried on", compared, cheaper, stuck)
	}
	for _, e := range allEvents {
		if by[e.name] < campaign.Cases(0, 6) {
			t.Errorf("%q happened in %d of the jobs compared", e.name, by[e.name])
		}
	}
}

// carriedOn is the old plan under the new facts; nil where a slot has nothing left.
func carriedOn(st *catalog.State, was *plan.Plan) *plan.Plan {
	var lines []*adapter.Line
	for i := range was.Lines {
		l := &was.Lines[i]
		choices := adapter.Choices(st, l.Slot)
		k, f := stillThere(st, choices, l.Choice), stillThere(st, choices, l.Fallback)
		if k == nil || !adapter.MayHang(st, k) {
			k, f = f, nil
		}
		if k == nil {
			return nil
		}
		if k.Fails == 0 || (f != nil && !adapter.MayWait(st, f)) {
			f = nil
		}
		lines = append(lines, &adapter.Line{K: k, F: f})
	}
	var trades []int
	for _, c := range was.Charges {
		if c.Kind == plan.ChargeTrade {
			trades = append(trades, c.Of)
		}
	}
	return adapter.Plan(st, lines, trades)
}

// stillThere is what has become of a choice: the same, or at the plater, or back, or
// hung.
func stillThere(st *catalog.State, choices []*plan.Choice, c *plan.Choice) *plan.Choice {
	if c == nil {
		return nil
	}
	p := &st.Pieces[c.Piece]
	for _, o := range choices {
		switch {
		case o.Piece != c.Piece:
		case plan.SameChoice(o, c), o.Sent:
			return o
		case (p.Stage == catalog.StageBack && p.Sent.Was || p.Stage == catalog.StageHung) && o.Work == catalog.WorkAsIs:
			return o
		}
	}
	return nil
}
