package ask

import (
	"context"
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/internal/jobs"
	"brightset/model/internal/solved"
	"brightset/model/program"
	"brightset/model/seeded"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// TestContest: what ways save that are asked about together is what each saves by itself,
// of bags too, and where several would save more at the same time.
func TestContest(t *testing.T) {
	asked, save, bags, tried := 0, 0, 0, campaign.Cases(30, 150)
	for seed := range int64(tried) {
		st := doubtfulSet(uint64(seed) + 1)
		pl := solved.Cheapest(t, st)
		if !pl.Has {
			continue
		}
		ctx := context.Background()
		base, err := knowing(ctx, pl, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		ways := waysOf(uncertainFigures(pl, choice.Choices(st)))
		groups, _ := contests(ways)
		for _, group := range groups {
			c, err := newContest(ctx, base, pl, group)
			if err != nil {
				t.Fatal(err)
			}
			if err := c.settle(ctx, base); err != nil {
				t.Fatal(err)
			}
			for i, w := range group {
				if w.gain == 0 && i%20 != int(seed)%20 { // most save nothing, one like the other
					continue
				}
				opt := program.Options{FixedLimits: true, Adjust: w.choice}
				by, most, err := savedBy(ctx, &program.Explorer{}, program.Compile(st, opt), pl.Weighed())
				if err != nil || by != most {
					t.Fatal(by, most, err)
				}
				if !w.asked || w.gain != by || w.most != by {
					t.Errorf("seed %d: %+v saves %d to %d (%v), by itself %d",
						seed, w.of.InformationValue, w.gain, w.most, w.asked, by)
				}
				if asked++; by > 0 {
					save++
					if !usedOnce(st, w.of.Piece) {
						bags++
					}
				}
			}
		}
	}
	t.Logf("%d ways, %d save something, %d of them of bags", asked, save, bags)
	if save < tried/2 || bags < tried/8 {
		t.Errorf("%d ways, %d save something, %d of them of bags", asked, save, bags)
	}
}

// doubtfulSet makes a small job of usual sizes, in which prices may fall a long way and some
// spares are bags that fit two slots.
func doubtfulSet(seed uint64) *catalog.State {
	f, _ := seeded.Named("car-30")
	f.Slots, f.Pieces, f.Trades, f.Matches, f.Quotes = 5+int(seed%4), 5, 4, 1, 0.6
	st := seeded.Job(f, seed)
	for i := range st.Pieces {
		p := &st.Pieces[i]
		if i%3 == 0 {
			p.Quantity = 2
			if s := (p.Fits[0] + 1) % len(st.Slots); !slices.Contains(p.Fits, s) {
				p.Fits = append(slices.Clone(p.Fits), s)
			}
		}
		for q := range p.Quotes {
			quote := &p.Quotes[q]
			quote.Firm, quote.Low, quote.High = catalog.Estimate, jobs.Given(quote.Cost/3), jobs.Given(2*quote.Cost)
		}
	}
	return st
}
