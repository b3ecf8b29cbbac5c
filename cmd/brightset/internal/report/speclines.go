package report

import (
	"fmt"
	"strings"

	"brightset/catalog"
	"brightset/catalog/standard"
	"brightset/model/paper"
	"brightset/model/plan"
)

// Spec says, as information, what open standards ask of the pieces of every slot that can
// be plated, and what a layer weighs and takes by Faraday's law. perDm2 is the current
// density in A/dm2 for layers that no source gives one for, 0 for none.
func Spec(st *catalog.State, choices [][]plan.Choice, only int, perDm2 float64) string {
	text := Paragraph("", "", st.Job.Title+": plating by open standards")
	text += "\n" + Paragraph("", "", "Information for talking to a plater, not an instruction. "+
		"Baths, currents and times are the plater's; leave plating and stripping to licensed platers, "+
		"and follow the local rules.")
	var coats []standard.Coat
	for s := range st.Slots {
		if only >= 0 && s != only {
			continue
		}
		slotText, used := specOfSlot(st, s, choices[s], perDm2)
		text += "\n" + slotText
		coats = append(coats, used...)
	}
	return text + "\n" + list("What this rests on:", specNotes(coats, perDm2))
}

// specGroup is the pieces of one slot that fall under one specification.
type specGroup struct {
	metal  string
	known  bool // the metal is
	pieces []string
	spec   paper.Spec
	why    string // where there is no code
}

// specGroups puts the pieces that can be plated for a slot together by metal, in the order
// of the files.
func specGroups(st *catalog.State, slot int, choices []plan.Choice) []specGroup {
	plated := map[int]bool{}
	for i := range choices {
		if choices[i].Plated() {
			plated[choices[i].Piece] = true
		}
	}
	var groups []specGroup
	at := map[string]int{}
	for i := range st.Pieces {
		if !plated[i] {
			continue
		}
		metal := "metal not known"
		if m := st.Pieces[i].Metal; m != catalog.None {
			metal = st.Tables.Metals[m].Name
		}
		g, ok := at[metal]
		if !ok {
			g = len(groups)
			at[metal] = g
			spec, why := paper.SpecOf(st, slot, i)
			groups = append(groups, specGroup{metal: metal, known: st.Pieces[i].Metal != catalog.None, spec: spec, why: why})
		}
		groups[g].pieces = append(groups[g].pieces, plan.PieceName(st, i))
	}
	return groups
}

func specOfSlot(st *catalog.State, s int, choices []plan.Choice, perDm2 float64) (text string, coats []standard.Coat) {
	slot := &st.Slots[s]
	head := plan.Called(slot.Name, slot.ID)
	if slot.Service != 0 {
		head += fmt.Sprintf(": %s (%s)", slot.Service, slot.Service.Means())
	}
	text = Paragraph("", "  ", head)
	groups := specGroups(st, s, choices)
	if len(groups) == 0 {
		return text + Paragraph("  - ", "    ", "nothing that fits can be plated on what the files say; "+
			"why, tells check --slot "+slot.ID), nil
	}
	for i := range groups {
		g := &groups[i]
		head := fmt.Sprintf("%s (%s): ", g.metal, strings.Join(g.pieces, ", "))
		if g.why != "" {
			text += Paragraph("  - ", "    ", head+g.why)
			continue
		}
		text += Paragraph("  - ", "    ", fmt.Sprintf("%s%s (%s)", head, g.spec.Code, g.spec.Origin()))
		for _, c := range g.spec.Code.Coats() {
			text += Paragraph("      ", "        ", coatText(slot, c, perDm2))
			coats = append(coats, c)
		}
		for _, line := range besides(&g.spec) {
			text += Paragraph("      ", "        ", line)
		}
	}
	return text, coats
}

// coatText says how thick a layer is at least, what it weighs and how long it takes.
func coatText(slot *catalog.Slot, c standard.Coat, perDm2 float64) string {
	text := fmt.Sprintf("%s, at least %g um", c.What, c.Um)
	if grams, ok := coatGrams(slot, c); ok {
		text += fmt.Sprintf(": %.2f g on %s", grams, catalog.FormatArea(slot.Area.V))
	}
	if minutes, current, ok := c.Deposit.Times(c.Um, perDm2); ok {
		text += fmt.Sprintf("; %s min at %s A/dm2", rangeText(minutes), rangeText(current))
	}
	return text
}

// coatGrams is what a layer weighs on one piece; ok is false where the slot has no area.
func coatGrams(slot *catalog.Slot, c standard.Coat) (grams float64, ok bool) {
	if !slot.Area.Set || slot.Area.V <= 0 {
		return 0, false
	}
	grams, err := c.Deposit.Mass(c.Um, float64(slot.Area.V)/1e6)
	return grams, err == nil
}

// rangeText writes a range, with one decimal below ten, and one figure where both ends
// read alike.
func rangeText(r standard.Range) string {
	least, most := figure(r.Least), figure(r.Most)
	if least == most {
		return least
	}
	return least + " to " + most
}

func figure(v float64) string {
	switch {
	case v < 0.1:
		return fmt.Sprintf("%.2g", v)
	case v < 9.95:
		return strings.TrimSuffix(fmt.Sprintf("%.1f", v), ".0")
	}
	return fmt.Sprintf("%.0f", v)
}

// besides is what else the tables say: the code under other kinds of chromium, how double
// nickel is shared, and what another standard asks.
func besides(s *paper.Spec) []string {
	var lines []string
	if len(s.Others) > 0 {
		lines = append(lines, "with another kind of chromium: "+chromesText(s))
	}
	if s.Code.Basis == standard.Steel && s.Code.NickelType == "d" {
		lines = append(lines,
			fmt.Sprintf("of double nickel at least %.0f %% is semi-bright (Surface Finishing Guidebook, table IV)",
				100*standard.SemiBrightShare))
	}
	if j, use, ok := standard.LeastJIS(s.Code.Basis, s.Service); ok {
		least := fmt.Sprintf("nickel at least %g um, chromium %g um", j.Um, standard.ChromeJIS)
		switch {
		case s.Code.Basis == standard.ZincAlloy:
			least = fmt.Sprintf("copper and nickel together at least %g um", j.Um)
		case j.Double:
			least = "double " + least
		}
		lines = append(lines, fmt.Sprintf("to compare, JIS H 8617 (a reprint), %s use, grade %d: %s", use.Means, j.Grade,
			least))
	}
	return lines
}

// chromesText lists the codes under other kinds of chromium; where they come from only if
// it is elsewhere than the first.
func chromesText(s *paper.Spec) string {
	var codes []string
	for i := range s.Others {
		o := paper.Spec{Service: s.Service, Chosen: s.Others[i]}
		text := o.Code.String()
		if o.Origin() != s.Origin() {
			text += " (" + o.Origin() + ")"
		}
		codes = append(codes, text)
	}
	return strings.Join(codes, "; ")
}
