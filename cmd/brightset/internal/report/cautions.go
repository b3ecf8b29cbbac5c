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
