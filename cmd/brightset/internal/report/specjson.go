package report

import (
	"fmt"
	"strconv"

	"brightset/catalog"
	"brightset/catalog/standard"
	"brightset/model/plan"
)

type specDoc struct {
	Format      int           `json:"format"`
	Title       string        `json:"title"`
	Information string        `json:"information"`
	Slots       []slotSpec    `json:"slots"`
	Without     []bareSlotDoc `json:"nothing_to_plate"` // slots for which no piece can be plated on what the files say
}

type bareSlotDoc struct {
	Slot string `json:"slot"`
	Name string `json:"name"`
}

// slotSpec is a piece that can be plated for a slot. Code, source, line and layers are
// empty where why says that there is no code.
type slotSpec struct {
	Slot       string      `json:"slot"`
	Name       string      `json:"name"`
	Area       *float64    `json:"area_dm2"`
	Service    int         `json:"service"` // 1 to 5, 0 not said
	Piece      string      `json:"piece"`
	Metal      string      `json:"metal"` // "" not known
	Code       string      `json:"code"`
	Source     string      `json:"source"`
	Line       int         `json:"line"` // the service condition whose line it is
	Layers     []coatSpec  `json:"layers"`
	Others     []otherSpec `json:"others"`            // under other kinds of chromium
	SemiBright *float64    `json:"semi_bright_share"` // of double nickel, at least; null where it is not asked
	Why        string      `json:"why"`
}

type otherSpec struct {
	Code   string `json:"code"`
	Source string `json:"source"`
	Line   int    `json:"line"`
}

// coatSpec is one layer. Grams are null without an area, minutes and current without a
// current density.
type coatSpec struct {
	Metal        string      `json:"metal"`
	What         string      `json:"what"`
	Um           float64     `json:"least_um"`
	Grams        *float64    `json:"grams"`
	Efficiency   [2]float64  `json:"efficiency"` // least and most, 0..1
	EfficiencyOf string      `json:"efficiency_source"`
	Current      *[2]float64 `json:"a_per_dm2"`
	CurrentOf    string      `json:"current_source"`
	Minutes      *[2]float64 `json:"minutes"`
}

// SpecJSON writes what Spec says as one JSON document, piece by piece.
func SpecJSON(st *catalog.State, choices [][]plan.Choice, only int, perDm2 float64) (string, error) {
	doc := specDoc{
		Format: Format, Title: st.Job.Title, Slots: []slotSpec{}, Without: []bareSlotDoc{},
		Information: "for talking to a plater, not an instruction: leave plating and stripping to licensed platers",
	}
	for s := range st.Slots {
		if only >= 0 && s != only {
			continue
		}
		groups := specGroups(st, s, choices[s])
		if len(groups) == 0 {
			doc.Without = append(doc.Without, bareSlotDoc{st.Slots[s].ID, st.Slots[s].Name})
		}
		for i := range groups {
			doc.Slots = append(doc.Slots, slotSpecs(st, s, &groups[i], perDm2)...)
		}
	}
	return toJSON(doc)
}

// slotSpecs are the entries of the pieces of one group.
func slotSpecs(st *catalog.State, s int, g *specGroup, perDm2 float64) []slotSpec {
	slot := &st.Slots[s]
	one := slotSpec{
		Slot: slot.ID, Name: slot.Name, Area: areaOf(slot), Service: int(slot.Service), Why: g.why, Layers: []coatSpec{},
		Others: []otherSpec{},
	}
	if g.known {
		one.Metal = g.metal
	}
	if g.why == "" {
		one.Code, one.Source, one.Line = g.spec.Code.String(), g.spec.Source, int(g.spec.For)
		for _, c := range g.spec.Code.Coats() {
			one.Layers = append(one.Layers, coatOf(slot, c, perDm2))
		}
		if g.spec.Code.Basis == standard.Steel && g.spec.Code.NickelType == "d" {
			share := standard.SemiBrightShare
			one.SemiBright = &share
		}
		for _, o := range g.spec.Others {
			one.Others = append(one.Others, otherSpec{o.Code.String(), o.Source, int(o.For)})
		}
	}
	var all []slotSpec
	for _, p := range g.pieces {
		one.Piece = p
		all = append(all, one)
	}
	return all
}

func coatOf(slot *catalog.Slot, c standard.Coat, perDm2 float64) coatSpec {
	p := c.Deposit.Practice()
	one := coatSpec{
		Metal: c.Deposit.Name, What: c.What, Um: c.Um,
		Efficiency: [2]float64{p.Efficiency.Least, p.Efficiency.Most}, EfficiencyOf: p.EfficiencyOf, CurrentOf: p.CurrentOf,
	}
	if grams, ok := coatGrams(slot, c); ok {
		grams = significant(grams)
		one.Grams = &grams
	}
	if minutes, current, ok := c.Deposit.Times(c.Um, perDm2); ok {
		one.Minutes = &[2]float64{significant(minutes.Least), significant(minutes.Most)}
		one.Current = &[2]float64{significant(current.Least), significant(current.Most)}
		if p.CurrentOf == "" {
			one.CurrentOf = "--current"
		}
	}
	return one
}

// significant rounds to four digits, more than the figures behind them have.
func significant(v float64) float64 {
	v, _ = strconv.ParseFloat(fmt.Sprintf("%.4g", v), 64)
	return v
}
