package report

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
