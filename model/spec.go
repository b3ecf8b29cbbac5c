package model

import (
	"fmt"

	"brightset/catalog"
	"brightset/catalog/standard"
)

// bases says which table of the standard a metal of the trade tables falls under; ""
// where there is none.
var bases = map[string]standard.Basis{
	"steel": standard.Steel, "cast iron": standard.Steel, "pot metal": standard.ZincAlloy,
	"brass": standard.CopperAlloy, "copper": standard.CopperAlloy, "bronze": standard.CopperAlloy, "nickel silver": standard.CopperAlloy,
}

// Chromes are the kinds of chromium a code can ask for: regular, microporous,
// microcracked.
var Chromes = []string{"r", "mp", "mc"}

// Spec is what open standards ask of a piece in a slot.
type Spec struct {
	Code   standard.Code
	Source string
}

// SpecOf chooses the classification for a piece's metal and a slot's service. Where there
// is none, why says so.
func SpecOf(st *catalog.State, slot, piece int) (spec Spec, why string) {
	service := st.Slots[slot].Service
	if service == 0 {
		return spec, `the files don't say how hard the use is: write service = "severe" in [job] or in the slot`
	}
	p := &st.Pieces[piece]
	if p.Metal == catalog.None {
		return spec, "the metal is not known"
	}
	metal := st.Tables.Metals[p.Metal].Name
	basis, ok := bases[metal]
	if !ok {
		why = fmt.Sprintf("no table was seen for %s: ask the plater", metal)
		if standard.CopperFirst(metal) {
			why += "; copper goes on first (ASTM B456 clause 1.1)"
		}
		return spec, why
	}
	for _, chrome := range Chromes {
		if code, source, ok := standard.Choose(basis, service, chrome); ok {
			return Spec{code, source}, ""
		}
	}
	return spec, fmt.Sprintf("no table goes as far as %s for %s: ask the plater", standard.ServiceWords[service-1].Word, metal)
}

// SpecLines is what a work order says by open standards; ok is false where there is
// nothing to say.
func SpecLines(st *catalog.State, c *Choice) (lines []string, ok bool) {
	s, why := SpecOf(st, c.Slot, c.Piece)
	if why != "" {
		return []string{why}, st.Slots[c.Slot].Service != 0
	}
	service := st.Slots[c.Slot].Service
	lines = append(lines, fmt.Sprintf("%s for service condition SC%d, %s (%s)", s.Code, service, standard.ServiceWords[service-1].Word, s.Source))
	if s.Code.Copper > 0 {
		lines = append(lines, fmt.Sprintf("copper first, at least %g um; then nickel, at least %g um; then chromium, at least %g um", s.Code.Copper, s.Code.Nickel, standard.DefaultChrome))
	} else {
		lines = append(lines, fmt.Sprintf("nickel, at least %g um; then chromium, at least %g um", s.Code.Nickel, standard.DefaultChrome))
	}
	return append(lines, standard.Significant, standard.Viewing, "defects are told by rating: 10 none, 9 up to 0.1 % of the surface (ISO 10289)"), true
}
