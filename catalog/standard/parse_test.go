package standard

import (
	"fmt"
	"strconv"
	"strings"
)

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
