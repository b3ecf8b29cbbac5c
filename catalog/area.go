package catalog

import (
	"fmt"
	"math/big"
	"regexp"
	"strings"
)

// units of area in millionths of a square decimetre. The inch is 25.4 mm, so
// all are exact.
var units = []struct {
	name string
	size int64
}{
	{"dm2", 1_000_000},
	{"in2", 64_516},
	{"cm2", 10_000},
	{"ft2", 9_290_304},
	{"mm2", 100},
	{"m2", 100_000_000},
}

// ParseArea reads an area with its unit, such as "3.2 dm2" or "50 in2", into
// millionths of a square decimetre. Units: dm2, cm2, mm2, m2, in2, ft2.
func ParseArea(s string) (Micro, error) {
	text := strings.ReplaceAll(strings.TrimSpace(s), "²", "2")
	end := strings.IndexFunc(text, func(r rune) bool { return (r < '0' || r > '9') && r != '.' })
	if end < 0 {
		hint := `write "3.2 dm2" or "50 in2"`
		if text != "" {
			hint = fmt.Sprintf("write %q or %q", text+" dm2", text+" in2")
		}
		return 0, bad(hint, "%q has no unit", clip(s))
	}
	amount, unit := text[:end], strings.ToLower(strings.TrimSpace(text[end:]))
	whole, frac, hasPoint := strings.Cut(amount, ".")
	if !digits(whole) || hasPoint && !digits(frac) || len(amount) > 20 || strings.HasPrefix(unit, ",") {
		return 0, notArea(s)
	}
	var names []string
	for _, u := range units {
		names = append(names, u.name)
		if u.name == unit {
			return measured(s, whole, frac, u.size)
		}
	}
	hint := meant(unit, names, "")
	switch {
	case strings.ContainsAny(unit, "x×*"):
		hint = `multiply the two sides and write the area, such as "12 in2"`
	case strings.Contains(unit, "in") || strings.ContainsAny(unit, `"”″`):
		hint = fmt.Sprintf("write %q, square inches", amount+" in2")
	}
	return 0, bad(hint, "unknown unit of area %q", clip(unit))
}

// notArea says that a text is no area and what may have been meant.
func notArea(s string) *BadValue {
	var likely []string
	for _, instead := range []string{".", ""} {
		text := strings.Replace(s, ",", instead, 1)
		if strings.Count(s, ",") != 1 {
			break
		}
		if _, err := ParseArea(text); err == nil && (instead == "." || thousands.MatchString(s)) {
			likely = append(likely, fmt.Sprintf("%q", text))
		}
	}
	if len(likely) == 0 {
		return bad(`write "3.2 dm2" or "50 in2", with a point for decimals`, "%q is no area", clip(s))
	}
	return bad("write "+strings.Join(likely, " or "), "%q is no area", clip(s))
}

// thousands is a comma that may stand between thousands.
var thousands = regexp.MustCompile(`,\d{3}\D`)

// measured multiplies the number by its unit, rounding half up.
func measured(s, whole, frac string, size int64) (Micro, error) {
	n, _ := new(big.Int).SetString(whole+frac, 10)
	n.Mul(n, big.NewInt(size))
	scale := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(len(frac))), nil)
	n.Add(n.Mul(n, big.NewInt(2)), scale)
	n.Div(n, scale.Mul(scale, big.NewInt(2)))
	switch {
	case n.Sign() == 0:
		return 0, bad("write the area that is seen, or leave the key out", "an area can't be zero")
	case n.Cmp(big.NewInt(int64(MaxArea))) > 0:
		return 0, bad("check the unit", "%q is more than %s", clip(s), FormatArea(MaxArea))
	}
	return Micro(n.Int64()), nil
}

// FormatArea writes an area in square decimetres, such as "3.2 dm2".
func FormatArea(a Micro) string { return FormatMicro(a) + " dm2" }
