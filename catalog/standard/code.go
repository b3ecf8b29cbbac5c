package standard

import (
	"strconv"
)

// Basis is the metal under the plating.
type Basis string

// The basis metals that have a table.
const (
	Steel       Basis = "Fe"
	ZincAlloy   Basis = "Zn"
	CopperAlloy Basis = "Cu"
)

// Code is a classification as ASTM B456 and ISO 1456 write it: basis metal, copper,
// nickel and chromium. Thicknesses are the least, in um.
//
// Types of nickel and chromium: Surface Finishing Guidebook 2011-12, table V, after ASTM
// B456. Type a of copper: from memory.
type Code struct {
	Basis      Basis
	Copper     float64 // 0: none
	CopperType string  // a ductile acid copper; "" not said
	Nickel     float64
	NickelType string  // b bright, d double or multilayer, p dull or semi-bright, s polished
	ChromeType string  // r regular, mp microporous, mc microcracked
	Chrome     float64 // 0: as the code leaves it out, which stands for DefaultChrome
}

// DefaultChrome is the least thickness of chromium in um that a code without one stands
// for (Surface Finishing Guidebook 2011-12, table V, after ASTM B456).
const DefaultChrome = 0.3

// NickelWords and ChromeWords say what the types of a code mean (guidebook, table V).
var (
	NickelWords = map[string]string{"b": "bright nickel", "d": "double nickel", "p": "dull or semi-bright nickel",
		"s": "polished nickel"}
	ChromeWords = map[string]string{"r": "regular chromium", "mp": "microporous chromium", "mc": "microcracked chromium"}
)

// ChromeUm is the least thickness of chromium in um.
func (c Code) ChromeUm() float64 {
	if c.Chrome > 0 {
		return c.Chrome
	}
	return DefaultChrome
}

// String writes the code: Fe/Ni35d Cr mp. The thickness of chromium is left out where it
// is DefaultChrome.
func (c Code) String() string {
	text := string(c.Basis) + "/"
	if c.Copper > 0 {
		text += "Cu" + um(c.Copper) + c.CopperType + " "
	}
	text += "Ni" + um(c.Nickel) + c.NickelType + " Cr " + c.ChromeType
	if c.ChromeUm() != DefaultChrome {
		text += um(c.Chrome)
	}
	return text
}

func um(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
