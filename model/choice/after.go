package choice

import (
	"fmt"
	"slices"

	"brightset/catalog"
	"brightset/model/plan"
)

// What is done to the finished piece, such as paint laid into a background, is done when it
// is back, unless the plater takes it on: until then it is outstanding, wherever the piece is.

// Outstanding are the works after plating that a piece at a plater's, or back from him, has
// yet to have from others, in their order: those it was sent with, and those that came to
// light since and that he doesn't do.
func Outstanding(st *catalog.State, p *catalog.Piece) []int {
	if !p.Sent.Was || p.Stage > catalog.StageBack {
		return nil
	}
	var works []int
	for i := range p.Findings {
		f := &p.Findings[i]
		later := p.AtPlater() && !p.Sent.Knows(f)
		for _, w := range worksOf(st, p, f) {
			agreed := slices.Contains(p.Sent.After, w) || later && !slices.Contains(st.Platers[p.Sent.Plater].Works, w)
			if agreed && st.Tables.Works[w].AfterPlating() && !slices.Contains(f.Done, w) {
				works = append(works, w)
			}
		}
	}
	slices.Sort(works)
	return slices.Compact(works)
}

// stays gives the findings that a piece hangs with as it is: all but those of which nothing
// but what is outstanding is left to do.
func stays(st *catalog.State, p *catalog.Piece) func(*catalog.Finding) bool {
	works := Outstanding(st, p)
	return func(f *catalog.Finding) bool { return !FinishedBy(st, p, f, works) }
}

// FinishedBy says whether works are all that is left to do of a finding, and something is.
func FinishedBy(st *catalog.State, p *catalog.Piece, f *catalog.Finding, works []int) bool {
	left := slices.DeleteFunc(slices.Clone(worksOf(st, p, f)), func(w int) bool { return slices.Contains(f.Done, w) })
	return len(left) > 0 && !slices.ContainsFunc(left, func(w int) bool { return !slices.Contains(works, w) })
}

// finish adds what is outstanding to what is done with a piece: it is part of the choice to
// wait for it, or to hang it. why says that nobody does one of the works.
func (d *draft) finish(st *catalog.State, slot, piece int) (why string) {
	p := &st.Pieces[piece]
	days := 0
	for _, w := range Outstanding(st, p) {
		work := &st.Tables.Works[w]
		by, maker, hourly, ok := doer(st, catalog.None, w)
		if !ok {
			return fmt.Sprintf("nobody does %s: not the shop, no maker", work.Name)
		}
		hours := workHours(st, p, w, st.Slots[slot].Area.Or(0))
		cost := catalog.Of(hours, hourly)
		d.parts = append(d.parts, plan.Part{Work: w, Doer: by, Maker: maker, Hours: hours, Cost: cost})
		d.other += cost
		if by == plan.ByMaker {
			d.makers += cost
			days = max(days, st.Makers[maker].Days)
		}
		b := at(work.Breakage, p.Metal)
		d.breakage = catalog.Either(d.breakage, b.Or(0))
		d.grade = min(d.grade, work.Cap.Or(catalog.MaxGrade))
		if cost > 0 {
			d.assumptions = append(d.assumptions, hourAssumptions(work)...)
			if by == plan.ByShop {
				d.assumptions = append(d.assumptions, shopHourly(st)...)
			}
		}
		if b.V > 0 {
			d.assumptions = append(d.assumptions,
				assumed(b, breakageOf+"%s in %s", work.Name, st.Tables.Metals[p.Metal].Name)...)
		}
	}
	d.days += days
	return ""
}

// withPlating puts plating itself among the works where their order has it: what mends a
// piece comes before, what is done to the finished piece after.
func withPlating(st *catalog.State, works []plan.Part, cost catalog.Cents) []plan.Part {
	after := slices.IndexFunc(works, func(p plan.Part) bool {
		return st.Tables.Works[p.Work].AfterPlating()
	})
	if after < 0 {
		after = len(works)
	}
	plating := plan.Part{Work: catalog.None, Doer: plan.ByPlater, Maker: catalog.None, Cost: cost}
	return slices.Insert(works, after, plating)
}
