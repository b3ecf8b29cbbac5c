package paper

import (
	"fmt"

	"brightset/catalog"
	"brightset/catalog/standard"
)

// bases says which table of the standard a metal of the trade tables falls under; ""
// where there is none. Cast iron is taken with steel, and pot metal is a zinc die casting.
var bases = map[string]standard.Basis{
	"steel": standard.Steel, "cast iron": standard.Steel, "pot metal": standard.ZincAlloy,
	"brass": standard.CopperAlloy, "copper": standard.CopperAlloy, "bronze": standard.CopperAlloy,
	"nickel silver": standard.CopperAlloy,
}

// Spec is what open standards ask of a piece in a slot.
type Spec struct {
	Service standard.Service // the slot's
	standard.Chosen
	Others []standard.Chosen // the same under the other kinds of chromium
}

// SpecOf chooses the classification for a piece's metal and a slot's service, with regular
// chromium where there is a line for it. Where there is none, why says so.
func SpecOf(st *catalog.State, slot, piece int) (spec Spec, why string) {
	spec.Service = st.Slots[slot].Service
	if spec.Service == 0 {
		return spec, `the files don't say how hard the use is: write service = "severe" in [job] or in the slot`
	}
	p := &st.Pieces[piece]
	if p.Metal == catalog.None {
		return spec, "a code needs the metal: find out what it is"
	}
	metal := st.Tables.Metals[p.Metal].Name
	basis, ok := bases[metal]
	if !ok {
		return spec, noTable(metal)
	}
	var all []standard.Chosen
	for _, chrome := range []string{"r", "mp", "mc"} {
		if c, ok := standard.Choose(basis, spec.Service, chrome); ok {
			all = append(all, c)
		}
	}
	if len(all) == 0 {
		return spec, fmt.Sprintf("no table goes as far as %s for %s: ask the plater", spec.Service, metal)
	}
	spec.Chosen = all[0]
	for _, c := range all[1:] {
		if c.For == spec.For { // a line for harder use is no alternative
			spec.Others = append(spec.Others, c)
		}
	}
	return spec, ""
}

func noTable(metal string) string {
	why := fmt.Sprintf("no table was seen for %s: ask the plater", metal)
	switch standard.CopperOn(metal) {
	case standard.CopperFirst:
		why += "; copper goes on first (ASTM B456 clause 1.1)"
	case standard.CopperNeedless:
		why += "; copper first is not needed (ASTM B456 clause 1.1)"
	}
	return why
}

// Origin says where the figures come from, and for which service condition they stand if
// there is no line for the one asked for.
func (s *Spec) Origin() string {
	if s.For != s.Service {
		return fmt.Sprintf("%s; the line for SC%d, as none is at hand for SC%d", s.Source, s.For, s.Service)
	}
	return s.Source
}

// Layers says layer by layer, in the order in which they go on, how thick each is at least; in
// thousandths of an inch too for people who measure in inches. An inch is 25,400 um.
func (s *Spec) Layers(inches bool) []string {
	var all []string
	for _, c := range s.Code.Coats() {
		text := fmt.Sprintf("%s, %g um", c.What, c.Um)
		if inches {
			text += fmt.Sprintf(" (%.2g mil)", c.Um/25.4)
		}
		all = append(all, text)
	}
	return all
}
