package jobs

import (
	"math/rand/v2"
	"slices"

	"brightset/catalog"
)

const paint = 4 // the work after plating, in jobs that have one

// byMetal lets pits in pot metal ask for other works than in the other metals.
func (j *RandomJob) byMetal() {
	if j.has("works-in") {
		pits := &j.St.Tables.Defects[2]
		pits.By[catalog.Light].WorksIn = []catalog.WorksIn{{Metal: steel}, {Metal: potMetal, Works: []int{1, 2}}}
		pits.By[catalog.Severe].WorksIn = []catalog.WorksIn{{Metal: potMetal, Works: []int{2}}}
	}
}

// after adds a work that is done to the finished piece, faults that ask for it, and who does
// it: in some jobs nobody.
func (j *RandomJob) after() {
	if !j.has("after") {
		return
	}
	st, r := j.St, j.Of("after")
	st.Tables.Works = append(st.Tables.Works, catalog.Work{Name: "paint", Order: Set(60),
		Hours: Set(Between[catalog.Micro](r, 0, 300_000)), Each: Set[catalog.Micro](222_223),
		PerArea:  maybe(Chance(r, 50), catalog.Micro(345_679)),
		Breakage: []catalog.Val[catalog.Micro]{Set[catalog.Micro](2_003), Set[catalog.Micro](9_091)},
		Cap:      maybe(Chance(r, 50), catalog.Centi(91_00))})
	dents := &st.Tables.Defects[3]
	dents.By[catalog.Light].Works, dents.By[catalog.Moderate].Works = []int{paint}, []int{2, paint}
	st.Tables.Defects[2].By[catalog.Moderate].Works = []int{1, paint}
	if Chance(r, 60) {
		st.Shop.Works = append(st.Shop.Works, paint)
	}
	for m := range st.Makers {
		if Chance(r, 60) {
			st.Makers[m].Works = append(st.Makers[m].Works, paint)
		}
	}
	for q := range st.Platers {
		if Chance(r, 35) {
			st.Platers[q].Works = append(slices.Clone(st.Platers[q].Works), paint)
		}
	}
}

// waiting lets some pieces at platers', and back from them, wait for the work that is done
// to the finished piece. found is what was found on each before it was sent.
func waiting(r *rand.Rand, st *catalog.State, found [][]catalog.Finding) {
	if len(st.Tables.Works) <= paint {
		return
	}
	for i := range st.Pieces {
		p := &st.Pieces[i]
		if !p.Sent.Was || p.Stage > catalog.StageBack || Chance(r, 30) {
			continue
		}
		p.Sent.After = []int{paint}
		if p.Stage != catalog.StageBack {
			continue
		}
		for _, f := range found[i] {
			if mend := st.Tables.Mending(&f, p.Metal); slices.Contains(mend, paint) {
				f.Done = slices.DeleteFunc(slices.Clone(mend), func(w int) bool { return w == paint })
				p.Findings = append(p.Findings, f)
			}
		}
	}
}
