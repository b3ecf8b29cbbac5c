package choice

import (
	"slices"

	"brightset/catalog"
)

// Untaken is a trade work that nobody does, no plater and no maker and not the shop, and the
// pieces that wait for it.
type Untaken struct {
	Work   int
	Pieces []int
}

// UntakenWorks gives the works that nobody does and that some piece of a slot waits for, in
// the order of the table. A piece for which a plater has named a price doesn't wait.
func UntakenWorks(st *catalog.State) []Untaken {
	var all []Untaken
	for w := range st.Tables.Works {
		if takenBy(st, w) {
			continue
		}
		u := Untaken{Work: w}
		for i := range st.Pieces {
			if p := &st.Pieces[i]; waits(st, p) && ToDo(st, p, w) {
				u.Pieces = append(u.Pieces, i)
			}
		}
		if len(u.Pieces) > 0 {
			all = append(all, u)
		}
	}
	return all
}

// takenBy says whether anybody does a work.
func takenBy(st *catalog.State, w int) bool {
	return slices.Contains(st.Shop.Works, w) ||
		slices.ContainsFunc(st.Platers, func(q catalog.Plater) bool { return slices.Contains(q.Works, w) }) ||
		slices.ContainsFunc(st.Makers, func(m catalog.Maker) bool { return slices.Contains(m.Works, w) })
}

// waits says whether a piece is there and goes somewhere, and its works are reckoned by the
// trade tables.
func waits(st *catalog.State, p *catalog.Piece) bool {
	if p.Gone() || p.AtPlater() || p.Stage >= catalog.StageBack || len(p.Fits)+len(p.Fit) == 0 {
		return false
	}
	for q := range st.Platers {
		if hasQuote(st, p, q) {
			return false
		}
	}
	return !slices.ContainsFunc(p.Findings, func(f catalog.Finding) bool {
		return st.Tables.Defects[f.Defect].By[f.Severity].Beyond.Or(false)
	})
}

// WithTakers is a state in which a maker does some works, at the shop's own rate and in no
// time: what could be done if somebody were found for them.
func WithTakers(st *catalog.State, works []int) *catalog.State {
	with := st.Clone()
	with.Makers = append(slices.Clone(with.Makers), catalog.Maker{ID: "somebody", Name: "somebody",
		Hourly: st.Shop.Hourly.Or(0),
		Works:  works})
	return with
}
