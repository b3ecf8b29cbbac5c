package standard

import (
	"fmt"
	"strconv"
	"strings"
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
	NickelWords = map[string]string{"b": "bright nickel", "d": "double nickel", "p": "dull or semi-bright nickel", "s": "polished nickel"}
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

// Parse reads what String writes.
func Parse(s string) (Code, error) {
	wrong := fmt.Errorf("%q is no classification code; write it as Fe/Cu20a Ni30b Cr mc", s)
	basis, rest, ok := strings.Cut(s, "/")
	if !ok || !isBasis(basis) {
		return Code{}, wrong
	}
	c := Code{Basis: Basis(basis)}
	fields := strings.Fields(rest)
	if len(fields) > 0 && strings.HasPrefix(fields[0], "Cu") {
		if c.Copper, c.CopperType, ok = layer(fields[0][2:]); !ok || !oneOf(c.CopperType, "", "a") {
			return Code{}, wrong
		}
		fields = fields[1:]
	}
	if len(fields) != 3 || !strings.HasPrefix(fields[0], "Ni") || fields[1] != "Cr" {
		return Code{}, wrong
	}
	if c.Nickel, c.NickelType, ok = layer(fields[0][2:]); !ok || NickelWords[c.NickelType] == "" {
		return Code{}, wrong
	}
	c.ChromeType = strings.TrimRight(fields[2], digits)
	if ChromeWords[c.ChromeType] == "" {
		return Code{}, wrong
	}
	if text := fields[2][len(c.ChromeType):]; text != "" {
		if c.Chrome, ok = thickness(text); !ok {
			return Code{}, wrong
		}
		if c.Chrome == DefaultChrome {
			c.Chrome = 0
		}
	}
	return c, nil
}

const digits = "0123456789."

// layer reads a thickness and a type: 35d.
func layer(s string) (um float64, kind string, ok bool) {
	kind = strings.TrimLeft(s, digits)
	um, ok = thickness(s[:len(s)-len(kind)])
	return um, kind, ok
}

// thickness reads micrometres above nothing and below a millimetre.
func thickness(s string) (um float64, ok bool) {
	um, err := strconv.ParseFloat(s, 64)
	return um, err == nil && um > 0 && um < 1000
}

// isBasis says whether a basis metal is written as a symbol: Fe, Zn, PL.
func isBasis(s string) bool {
	for _, r := range s {
		if (r < 'a' || r > 'z') && (r < 'A' || r > 'Z') {
			return false
		}
	}
	return s != "" && len(s) <= 3
}

func oneOf(s string, list ...string) bool {
	for _, one := range list {
		if s == one {
			return true
		}
	}
	return false
}
