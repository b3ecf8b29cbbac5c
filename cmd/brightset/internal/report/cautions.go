package report

import (
	"brightset/catalog"
	"brightset/model/plan"
)

// The cautions stand under every text that tells people to have work done.
// Common practice, no published source; local rules come first.
const (
	cautionClean = "Polishing and buffing: eye and breathing protection, no gloves or loose sleeves at the wheel, " +
		"the piece held so that it is thrown away from you."
	cautionPlate = "Leave stripping and plating to licensed platers: " +
		"the baths, old chromium and its dust are poisonous. Don't sand or grind old plating."
	cautionPot = "Heat on pot metal, solder or old plating gives off harmful fumes: outside or under extraction only. " +
		"Follow the local rules for waste and acids."
)

// Cautions for the sheets. Common practice, no published source; no figures, since none
// was seen in a source. Local rules and licensed practice come first.
var (
	platerCare = []string{
		"Old chromium, stripping and plating baths are poisonous: hexavalent chromium and cyanide among them. " +
			"For licensed platers only, by the local rules for work, air and waste water.",
		"Acid and cyanide never near each other. Strip pot metal and aluminium in what does not attack them.",
		"Buffing: eye and breathing protection, no loose sleeves, thin edges on a backing.",
	}
	benchCare = []string{
		cautionClean,
		cautionPlate,
		cautionPot,
		"Lead and zinc fumes from soldering and heating: outside or under extraction, wash hands before eating.",
	}
)

// cautions gives those that concern the works of a plan.
func cautions(p *plan.Plan) string {
	var cleaned, plated bool
	for i := range p.Lines {
		for _, c := range []*plan.Choice{p.Lines[i].Choice, p.Lines[i].Fallback} {
			if c == nil {
				continue
			}
			cleaned = cleaned || c.Work == catalog.WorkClean || len(c.Parts) > 0
			plated = plated || c.Plated()
		}
	}
	var items []string
	if cleaned {
		items = append(items, cautionClean)
	}
	if plated {
		items = append(items, cautionPlate, cautionPot)
	}
	return list("Take care:", items)
}
