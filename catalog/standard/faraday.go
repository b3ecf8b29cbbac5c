// Package standard holds what open standards and handbooks say about decorative
// plating: classification codes and least thicknesses, Faraday's law, ratings by defect
// area. Every table names its source; what was recalled and not seen says "from memory".
// It is information for talking to a plater. It knows nothing of jobs, and no baths.
//
// Units: layers in um, areas in dm2, masses in g, currents in A, densities of current in
// A/dm2, times in minutes, charges in Ah, efficiencies and shares 0..1, defective areas in
// per cent, as the standards print them.
package standard

import (
	"errors"
	"math"
)

// faraday is the charge of a mole of electrons, in ampere hours: 96485.33 C (CODATA).
const faraday = 96485.33212 / 3600

// Deposit is a metal as it is deposited: from ions of one valence.
type Deposit struct {
	Name    string
	Molar   float64 // g/mol
	Valence float64
	Density float64 // g/cm3
}

// The deposits. Molar masses: IUPAC standard atomic weights, from memory; what follows
// from them agrees with a published table of electrochemical equivalents to 0.3 % (a test
// holds it to that). Densities: as used with that table and with plating tutorial no. 166,
// Ni 8.9, Cu 8.92-8.96, Cr 7.1-7.2, Zn 7.10-7.14.
var (
	Nickel       = Deposit{"nickel", 58.693, 2, 8.9}
	AcidCopper   = Deposit{"copper", 63.546, 2, 8.93}
	StrikeCopper = Deposit{"copper", 63.546, 1, 8.93} // from cyanide, as on zinc
	Chromium     = Deposit{"chromium", 51.996, 6, 7.15}
	TriChromium  = Deposit{"chromium", 51.996, 3, 7.15} // from trivalent baths
	Zinc         = Deposit{"zinc", 65.38, 2, 7.12}
)

// PerAh is the mass in grams that one ampere hour deposits at full efficiency: M/(zF).
func (d Deposit) PerAh() float64 { return d.Molar / (d.Valence * faraday) }

// ErrRange is given for quantities that can't be: not above zero, or an efficiency above
// one.
var ErrRange = errors.New("quantities have to be above zero, and an efficiency at most one")

// Thickness is in um what a current in A deposits in so many minutes on an area in dm2,
// at an efficiency of 0 to 1: m = e I t M/(zF), spread evenly.
func (d Deposit) Thickness(amps, minutes, dm2, efficiency float64) (float64, error) {
	if !above(amps, minutes, dm2, efficiency) || efficiency > 1 {
		return 0, ErrRange
	}
	grams := d.PerAh() * amps * minutes / 60 * efficiency
	return possible(grams / d.Density / dm2 * 100) // 1 cm3 on 1 dm2 is 100 um
}

// possible refuses what has grown beyond all figures or shrunk to nothing.
func possible(v float64) (float64, error) {
	if !above(v) {
		return 0, ErrRange
	}
	return v, nil
}

// Mass is in grams what a layer of so many um on an area in dm2 weighs.
func (d Deposit) Mass(um, dm2 float64) (float64, error) {
	if !above(um, dm2) {
		return 0, ErrRange
	}
	return possible(um * dm2 / 100 * d.Density)
}

// Minutes is how long a layer of so many um takes at a current density in A/dm2.
func (d Deposit) Minutes(um, perDm2, efficiency float64) (float64, error) {
	one, err := d.Thickness(perDm2, 1, 1, efficiency)
	if err != nil || !above(um) {
		return 0, ErrRange
	}
	return possible(um / one)
}

// AhPerDm2 is the charge in ampere hours for a layer of so many um on one dm2.
func (d Deposit) AhPerDm2(um, efficiency float64) (float64, error) {
	grams, err := d.Mass(um, 1)
	if err != nil || !above(efficiency) || efficiency > 1 {
		return 0, ErrRange
	}
	return possible(grams / d.PerAh() / efficiency)
}

func above(all ...float64) bool {
	for _, v := range all {
		if !(v > 0) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

// Units of the trade.
const (
	Dm2PerFt2 = 9.290304 // definition of the foot
	UmPerInch = 25400.0  // definition of the inch
)
