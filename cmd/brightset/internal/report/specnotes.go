package report

import (
	"fmt"
	"strings"

	"brightset/catalog/standard"
)

// specNotes say where efficiencies, currents and words come from, for the deposits used.
func specNotes(coats []standard.Coat, perDm2 float64) []string {
	var notes []string
	for _, d := range []standard.Deposit{standard.AcidCopper, standard.StrikeCopper, standard.Nickel, standard.Chromium} {
		for _, c := range coats {
			if c.Deposit == d {
				notes = append(notes, practiceText(d, perDm2))
				break
			}
		}
	}
	if len(coats) > 0 {
		notes = append(notes,
			"Times and masses are for one piece, by Faraday's law on the area given, spread evenly; "+
				"atomic weights from memory, in agreement with a published table of electrochemical equivalents to 0.3 %. "+
				"Real pieces take more, as edges take what recesses lack (common practice, no published source).",
			chromiumText(), "The words for service conditions are from memory of ASTM B456.")
	}
	for _, c := range coats {
		if c.Deposit == standard.StrikeCopper {
			notes = append(notes, "Copper on zinc before nickel: sources differ. ASTM B456, from memory, has 5 um; "+
				"one guidebook 0.76 to 1.27 and then 2.0 to 3.6; a trade magazine 7.6 to 12.7.")
			break
		}
	}
	return append(notes, sentence(standard.Significant), sentence(standard.Surfaces), sentence(standard.Viewing),
		sentence(standard.Rated))
}

// sentence makes a sentence of words for a form.
func sentence(s string) string { return strings.ToUpper(s[:1]) + s[1:] + "." }

func practiceText(d standard.Deposit, perDm2 float64) string {
	p := d.Practice()
	text := strings.ToUpper(d.Name[:1]) + d.Name[1:]
	if p.From != "" {
		text += " " + p.From
	}
	text += ": efficiency " + p.EfficiencyOf
	switch {
	case p.CurrentOf != "":
		text += "; current density by " + p.CurrentOf
	case perDm2 > 0:
		text += fmt.Sprintf("; the current density is yours, %g A/dm2: no source gives one", perDm2)
	default:
		text += "; no source gives a current density: for a time type --current and A/dm2"
	}
	return text + "."
}

func chromiumText() string {
	var list []string
	for _, l := range standard.LeastChrome {
		list = append(list, fmt.Sprintf("%g um (%s)", l.Um, l.Source))
	}
	return fmt.Sprintf("How thin chromium may be: %s; %g is allowed in mild service, "+
		"and over nickel with fine particles no more than %g is recommended (ASTM B456-03).", strings.Join(list, ", "),
		standard.LeastChromeAt(1), standard.MostChromeOverParticles)
}
