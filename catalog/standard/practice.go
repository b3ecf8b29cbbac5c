package standard

// Range is the least and the most of a figure.
type Range struct{ Least, Most float64 }

// Practice is how a metal is deposited as far as a source was seen: the share of the
// current that deposits it, and the density of the current in A/dm2 (both 0 where no
// source gives one).
type Practice struct {
	From         string // the ions, where it matters: their valence decides
	Efficiency   Range
	EfficiencyOf string // source
	Current      Range
	CurrentOf    string // source; "" where there is none
}

// Practice gives what sources say of a deposit. Where none was seen, all of the current is
// taken to deposit it, which is the most there can be, and the current is left open.
func (d Deposit) Practice() Practice {
	switch d {
	case Nickel:
		return Practice{"", Range{0.93, 0.95}, `93 to 95 % (Rudy, "Clarifying Facts About Nickel Plating")`, Range{}, ""}
	case Chromium:
		// EPA: 50 to 220 A/ft2 for decorative chromium
		return Practice{"from chromic acid, valence 6", Range{0.15, 0.15}, "15 % (a published exercise)",
			Range{50 / Dm2PerFt2, 220 / Dm2PerFt2}, "EPA-453/B-95-001 table 3-1"}
	case StrikeCopper:
		return Practice{"from a cyanide strike, valence 1", Range{0.30, 0.60}, "30 to 60 % (Surface Finishing Guidebook " +
			"2011-12)",
			Range{0.5, 4}, "Surface Finishing Guidebook 2011-12"}
	}
	return Practice{"", Range{1, 1}, "100 %, the most there can be", Range{}, ""}
}

// Times is how long a layer of so many um takes, in minutes, over all that the sources
// allow. perDm2 is the current density in A/dm2 to take where no source gives one, 0 for
// none; ok is false where none is known.
func (d Deposit) Times(um, perDm2 float64) (minutes, current Range, ok bool) {
	p := d.Practice()
	current = p.Current
	if p.CurrentOf == "" {
		current = Range{perDm2, perDm2}
	}
	least, err := d.Minutes(um, current.Most, p.Efficiency.Most)
	if err != nil {
		return Range{}, Range{}, false
	}
	most, err := d.Minutes(um, current.Least, p.Efficiency.Least)
	return Range{least, most}, current, err == nil
}

// Coat is one layer of a classification.
type Coat struct {
	Deposit Deposit
	Um      float64 // the least
	What    string  // "double nickel"
}

// Coats are the layers of a code, in the order they go on. Copper on zinc is from a
// strike: an acid bath would eat the casting (common practice, no published source).
func (c Code) Coats() []Coat {
	var all []Coat
	if c.Copper > 0 {
		copper := Coat{AcidCopper, c.Copper, "copper"}
		if c.Basis == ZincAlloy && c.CopperType == "" {
			copper.Deposit = StrikeCopper
		}
		all = append(all, copper)
	}
	return append(all, Coat{Nickel, c.Nickel, NickelWords[c.NickelType]},
		Coat{Chromium, c.ChromeUm(), ChromeWords[c.ChromeType]})
}
