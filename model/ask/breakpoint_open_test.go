package ask

import (
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
	"brightset/testdata/campaign"
)

// TestSwitchPointBrackets: where the program may be asked only so often, what is said of a figure
// holds all the same: the decision stands as far as is told, and turns where it is told to have.
func TestSwitchPointBrackets(t *testing.T) {
	defer func(most int) { asksAtMost = most }(asksAtMost)
	settled, open, turned := 0, 0, 0
	for seed := range int64(campaign.Cases(160, 800)) {
		st := jobs.Random(9000+seed, 3, jobs.Options{On: []string{"shared"}})
		slot := int(seed) % 3
		asksAtMost = 150
		whole := whyOf(t, st, slot)
		asksAtMost = int(seed) % 2
		short := whyOf(t, st, slot)
		for i := range short.Points {
			settled++
			told := &short.Points[i]
			if p := sameFigure(whole, told); p != nil && (p.Last != told.Last || p.Never != told.Never) {
				t.Errorf("%s: %s turns after %d, and after %d if asked less", jobs.CaseName(9000+seed, 3, "brackets"),
					p.Figure, p.Last, told.Last)
			}
		}
		for i := range short.Unsettled {
			told := &short.Unsettled[i]
			p := sameFigure(whole, told)
			if p == nil {
				continue
			}
			open++
			way := int64(1)
			if told.Most < told.Last {
				way = -1
			}
			if way*(p.Last-told.Last) < 0 || way*(told.Most-p.Last) < 0 || told.Turns && p.Never {
				t.Errorf("%s: %s turns after %d (never: %v), but is told to turn between %d and %d",
					jobs.CaseName(9000+seed, 3, "brackets"), p.Figure, p.Last, p.Never, told.Last, told.Most)
			}
			if told.Turns {
				turned++
			}
		}
	}
	if settled < 20 || open < 5 || turned < 2 {
		t.Errorf("only %d settled, %d open, %d of them known to turn", settled, open, turned)
	}
	t.Logf("%d settled, %d open, %d of them known to turn", settled, open, turned)
}

// sameFigure is the settled turn of the same figure of the same choice.
func sameFigure(w *Why, p *Breakpoint) *Breakpoint {
	for i := range w.Points {
		if q := &w.Points[i]; q.Figure == p.Figure && plan.SameChoice(q.Choice, p.Choice) {
			return q
		}
	}
	return nil
}

// TestSwitchPointsNoGrade: a quote that names no grade has one from the rates, and none in a slot of
// unknown area. Moved, the grade is the quote's own, and the piece can hang there as well.
func TestSwitchPointsNoGrade(t *testing.T) {
	looked, seeds := 0, []int64{531, 961}
	for seed := range int64(campaign.Cases(60, 1000)) {
		seeds = append(seeds, seed)
	}
	for _, seed := range seeds {
		st := jobs.Random(9000+seed, 3, jobs.Options{On: []string{"shared"}, Off: []string{"keep"}})
		slot := int(seed) % 3
		other := (slot + 1) % 3
		st.Slots[other].Area.Set = false
		for i := range st.Pieces {
			p := &st.Pieces[i]
			if len(p.Quotes) == 0 {
				continue
			}
			for k := range p.Quotes {
				p.Quotes[k].Grade.Set = false
			}
			if slices.Contains(p.Fits, slot) && !slices.Contains(p.Fits, other) {
				p.Fits = append(p.Fits, other)
			}
		}
		w := whyOf(t, st, slot)
		for i := range w.Points {
			p := &w.Points[i]
			if p.Choice.Quote == catalog.None || p.Figure != choice.FigureGrade {
				continue
			}
			if looked++; p.Last != p.Now { // else it turns as it is named
				checkPoint(t, jobs.CaseName(9000+seed, 3, "no grade"), st, slot, w, p)
			}
		}
	}
	if looked < 2 {
		t.Errorf("only %d turns of a grade that no quote names", looked)
	}
}

// TestTurnedForSure: a set that is cheaper than the best known one that keeps to the decision says
// where to look; that it has turned there only what none of those is below.
func TestTurnedForSure(t *testing.T) {
	for kept, over := range map[[2]int64]int64{{90, 120}: 10, {110, 120}: 10, {111, 120}: 5} {
		v := &verdict{kept: level{lo: kept[0], hi: kept[1]}, others: level{lo: 80, hi: 110}}
		tu := turning{taken: true, over: 10, known: map[int64]*verdict{5: v}}
		if cheaper, err := tu.seemsCheaper(5); err != nil || !cheaper || tu.over != over {
			t.Errorf("between %d and %d against 110: %v, turned from %d on, %v", kept[0], kept[1], cheaper, tu.over, err)
		}
	}
}
