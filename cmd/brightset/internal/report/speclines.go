package report

import (
	"fmt"

	"brightset/catalog"
	"brightset/catalog/standard"
	"brightset/model"
)

// Spec says, as information, what open standards ask of every slot's pieces, and what a
// layer weighs and takes by Faraday's law. perDm2 is the current density in A/dm2 that
// times are for, 0 for none.
func Spec(st *catalog.State, only int, perDm2 float64) string {
	text := Paragraph("", "", st.Job.Title+": plating by open standards")
	text += "\n" + Paragraph("", "", "Information for talking to a plater, not an instruction. Baths, currents and times are his; leave plating and stripping to licensed platers and follow the local rules.")
	for s := range st.Slots {
		if only >= 0 && s != only {
			continue
		}
		text += "\n" + specOfSlot(st, s, perDm2)
	}
	return text
}

func specOfSlot(st *catalog.State, s int, perDm2 float64) string {
	slot := &st.Slots[s]
	text := Paragraph("", "  ", named(slot.Name, slot.ID))
	seen := map[string]bool{}
	for i := range st.Pieces {
		p := &st.Pieces[i]
		if p.Gone() || !fits(p, s) {
			continue
		}
		metal := metalText(st, p)
		if seen[metal] {
			continue
		}
		seen[metal] = true
		spec, why := model.SpecOf(st, s, i)
		if why != "" {
			text += Paragraph("  - ", "    ", metal+": "+why)
			continue
		}
		text += Paragraph("  - ", "    ", fmt.Sprintf("%s: %s, service SC%d, %s (%s)", metal, spec.Code, slot.Service, standard.ServiceWords[slot.Service-1].Word, spec.Source))
		for _, l := range layers(&spec) {
			text += Paragraph("      ", "        ", layerText(slot, l, perDm2))
		}
	}
	return text
}

func fits(p *catalog.Piece, slot int) bool {
	for _, s := range p.Fits {
		if s == slot {
			return true
		}
	}
	return false
}

// layer is one coat of a specification.
type layer struct {
	deposit standard.Deposit
	um      float64
}

func layers(s *model.Spec) []layer {
	var all []layer
	if s.Code.Copper > 0 {
		all = append(all, layer{standard.AcidCopper, s.Code.Copper})
	}
	return append(all, layer{standard.Nickel, s.Code.Nickel}, layer{standard.Chromium, standard.DefaultChrome})
}

// efficiency of nickel: 93 to 95 % in practice (Rudy); of the other two none is stated in
// a source seen, so times for them are at 100 % and 15 % and say so.
func efficiency(d standard.Deposit) (share float64, of string) {
	switch d.Name {
	case standard.Nickel.Name:
		return 0.94, "94 % (93 to 95 in practice: Rudy)"
	case standard.Chromium.Name:
		return 0.15, "15 % (as in a published exercise)"
	}
	return 1, "100 % (the most there can be)"
}

func layerText(slot *catalog.Slot, l layer, perDm2 float64) string {
	text := fmt.Sprintf("%s at least %g um", l.deposit.Name, l.um)
	if slot.Area.Set && slot.Area.V > 0 {
		dm2 := float64(slot.Area.V) / 1e6
		if grams, err := l.deposit.Mass(l.um, dm2); err == nil {
			text += fmt.Sprintf(", %.2f g on %s", grams, catalog.FormatArea(slot.Area.V))
		}
	}
	if perDm2 > 0 {
		share, of := efficiency(l.deposit)
		if minutes, err := l.deposit.Minutes(l.um, perDm2, share); err == nil {
			text += fmt.Sprintf(", %.1f min at %g A/dm2 by Faraday's law, at an efficiency of %s", minutes, perDm2, of)
		}
	}
	return text
}

type specDoc struct {
	Format int        `json:"format"`
	Slots  []slotSpec `json:"slots"`
}

type slotSpec struct {
	Slot    string `json:"slot"`
	Service int    `json:"service"` // 1 to 5, 0 not said
	Piece   string `json:"piece"`
	Metal   string `json:"metal"`
	Code    string `json:"code"`
	Source  string `json:"source"`
	Why     string `json:"why"` // where there is no code
}

// SpecJSON writes the codes of all pieces as one JSON document.
func SpecJSON(st *catalog.State, only int) (string, error) {
	doc := specDoc{Format: Format, Slots: []slotSpec{}}
	for s := range st.Slots {
		for i := range st.Pieces {
			p := &st.Pieces[i]
			if (only >= 0 && s != only) || p.Gone() || !fits(p, s) {
				continue
			}
			spec, why := model.SpecOf(st, s, i)
			one := slotSpec{Slot: st.Slots[s].ID, Service: int(st.Slots[s].Service), Piece: model.PieceName(st, i), Metal: metalText(st, p), Why: why}
			if why == "" {
				one.Code, one.Source = spec.Code.String(), spec.Source
			}
			doc.Slots = append(doc.Slots, one)
		}
	}
	return toJSON(doc)
}
