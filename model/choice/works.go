package choice

import (
	"slices"

	"brightset/catalog"
	"brightset/model/plan"
)

// worksFor gives the trade works that mend the findings, in the order of the table. Faults on backs need mending too.
func worksFor(st *catalog.State, p *catalog.Piece) []int {
	var works []int
	for i := range p.Findings {
		works = append(works, worksOf(st, p, &p.Findings[i])...)
	}
	slices.Sort(works)
	return slices.Compact(works)
}

// worksOf gives the works one finding of a piece needs.
func worksOf(st *catalog.State, p *catalog.Piece, f *catalog.Finding) []int {
	return st.Tables.Mending(f, p.Metal)
}

// workHours is what a work takes on one piece: once, for each fault that needs
// it, and by area for the share of the surface concerned:
//
//	hours + each * count + per area * (min(1, extents) * area)
func workHours(st *catalog.State, p *catalog.Piece, w int, area catalog.Micro) catalog.Micro {
	count, extent := 0, catalog.Micro(0)
	for i := range p.Findings {
		f := &p.Findings[i]
		if slices.Contains(worksOf(st, p, f), w) && !slices.Contains(f.Done, w) {
			count += f.Count
			extent += f.Extent
		}
	}
	work := &st.Tables.Works[w]
	concerned := catalog.Of(min(catalog.One, extent), area)
	return work.Hours.Or(0) + catalog.Micro(count)*work.Each.Or(0) + catalog.Of(concerned, work.PerArea.Or(0))
}

// ToDo says whether a work on a piece has yet to be done: what is behind us costs nothing,
// breaks nothing and takes no days; how good it can look at best remains.
func ToDo(st *catalog.State, p *catalog.Piece, w int) bool {
	return slices.ContainsFunc(p.Findings, func(f catalog.Finding) bool {
		return slices.Contains(worksOf(st, p, &f), w) && !slices.Contains(f.Done, w)
	})
}

// doer says who does a work on a piece at plater q (catalog.None where it is back), and at what hourly rate:
// the plater if he takes it, else the shop, else the cheapest maker, the first
// in the file where two ask the same. ok is false where nobody does it.
func doer(st *catalog.State, q, w int) (by plan.Doer, maker int, hourly catalog.Cents, ok bool) {
	if q != catalog.None && slices.Contains(st.Platers[q].Works, w) {
		return plan.ByPlater, catalog.None, st.Platers[q].Hourly.Or(st.Shop.Hourly.Or(0)), true
	}
	if slices.Contains(st.Shop.Works, w) {
		return plan.ByShop, catalog.None, st.Shop.Hourly.Or(0), true
	}
	maker = catalog.None
	for i := range st.Makers {
		m := &st.Makers[i]
		if slices.Contains(m.Works, w) && (maker == catalog.None || m.Hourly < st.Makers[maker].Hourly) {
			maker = i
		}
	}
	if maker == catalog.None {
		return plan.ByShop, catalog.None, 0, false
	}
	return plan.ByMaker, maker, st.Makers[maker].Hourly, true
}
