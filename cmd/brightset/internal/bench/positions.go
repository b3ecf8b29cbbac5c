package bench

import (
	"fmt"
	"net/http"
	"strings"

	"brightset/catalog"
	"brightset/model/plan"
)

// positionPage adds a position to the set.
func (s *Server) positionPage(w http.ResponseWriter, r *http.Request) {
	d, _, f, ok := s.open(w, r, "position")
	if !ok {
		return
	}
	f.Name = "Add a slot"
	s.show(w, http.StatusOK, "position", map[string]any{"F": f, "All": d.State.Slots, "Targets": targetNames(d.State)})
}

// shopPage shows who does the work, and adds platers and what they take.
func (s *Server) shopPage(w http.ResponseWriter, r *http.Request) {
	d, _, f, ok := s.open(w, r, "shop")
	if !ok {
		return
	}
	st := d.State
	f.Name = "The shop"
	var works []string
	for i := range st.Tables.Works {
		works = append(works, st.Tables.Works[i].Name)
	}
	within, loose := bundled(st)
	var called []string
	for i := range st.Pieces {
		called = append(called, plan.PieceCalled(st, i))
	}
	s.show(w, http.StatusOK, "shop", map[string]any{"F": f, "Platers": platerRows(st), "Metals": metals(st),
		"Grades": st.Tables.Grades, "Currency": st.Job.Currency, "Vendors": st.Vendors, "Makers": st.Makers,
		"Bundles": st.Together(), "Within": within, "Loose": loose, "Called": called,
		"Matches": st.Matches, "Avenues": st.Avenues, "Trades": st.Trades, "All": st.Slots,
		"Works": works, "Pieces": st.Pieces, "Job": &st.Job, "Targets": targetNames(st)})
}

// metals are those that the trade tables know, by name.
func metals(st *catalog.State) []string {
	var all []string
	for i := range st.Tables.Metals {
		all = append(all, st.Tables.Metals[i].Name)
	}
	return all
}

// platerRow is a plater with a row per level and metal.
type platerRow struct {
	ID, Name, Terms string
	Takes           [][4]string // level, metal, price of a dm2, grade
}

func platerRows(st *catalog.State) []platerRow {
	var all []platerRow
	for i := range st.Platers {
		p := &st.Platers[i]
		row := platerRow{ID: p.ID, Name: p.Name, Terms: platerTerms(p)}
		for l := range p.Levels {
			level := &p.Levels[l]
			for m := range st.Tables.Metals {
				if !level.Rate[m].Set && !level.Grade[m].Set {
					continue
				}
				rate, grade := "by the piece", "not said"
				if level.Rate[m].Set {
					rate = catalog.FormatMoney(level.Rate[m].V)
				}
				if level.Grade[m].Set {
					grade = catalog.FormatCenti(level.Grade[m].V)
				}
				row.Takes = append(row.Takes, [4]string{level.Name, st.Tables.Metals[m].Name, rate, grade})
			}
		}
		all = append(all, row)
	}
	return all
}

func platerTerms(p *catalog.Plater) string {
	var all []string
	if p.Minimum > 0 {
		all = append(all, "least lot "+catalog.FormatMoney(p.Minimum))
	}
	if p.Freight > 0 {
		all = append(all, "freight "+catalog.FormatMoney(p.Freight))
	}
	if p.Days > 0 {
		all = append(all, fmt.Sprintf("%d days", p.Days))
	}
	if len(all) == 0 {
		return "no terms noted"
	}
	return strings.Join(all, ", ")
}

// piecePick is a piece as a list to choose from names it.
type piecePick struct{ Key, Name string }

// bundled are the pieces that come out of each bundle, and those that may be put into one: what is
// neither on its way nor gone, nor came off the object.
func bundled(st *catalog.State) (within [][]piecePick, loose []piecePick) {
	within = make([][]piecePick, len(st.Bundles))
	for i := range st.Pieces {
		p := &st.Pieces[i]
		one := piecePick{p.Key(), plan.PieceCalled(st, i)}
		switch {
		case p.Gone() || p.Elsewhere || p.Bundle >= len(st.Together()): // sold by the box
		case p.Bundle != catalog.None:
			within[p.Bundle] = append(within[p.Bundle], one)
		case p.Stage == catalog.StageSeen && !p.AtPlater() && !p.Off:
			loose = append(loose, one)
		}
	}
	return within, loose
}
