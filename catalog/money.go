package catalog

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// ParseMoney reads an amount: "240", "240.00" or "1240.50". Everything that
// could be read in two ways is refused with a *BadValue saying what to write:
// commas, one or three decimals, spaces, signs and names of currencies.
func ParseMoney(s string) (Cents, error) {
	whole, frac, hasPoint := strings.Cut(s, ".")
	if !digits(whole) || hasPoint && (len(frac) != 2 || !digits(frac)) {
		return 0, notMoney(s)
	}
	if !hasPoint {
		frac = "00"
	}
	n, err := strconv.ParseInt(whole+frac, 10, 64)
	if err != nil || Cents(n) > MaxMoney {
		return 0, bad("write a smaller amount", "%q is more than %s", clip(s), FormatMoney(MaxMoney))
	}
	return Cents(n), nil
}

// factor is a letter that multiplies the digits before it.
var factor = regexp.MustCompile(`\d\s*\pL([^\pL]|$)`)

// notMoney says why a text is no amount and what may have been meant.
func notMoney(s string) *BadValue {
	why := "is no plain amount of money"
	switch {
	case strings.TrimSpace(s) == "":
		return bad(`write "0.00" or leave the key out`, "this is empty")
	case strings.ContainsAny(s, "-−(") && strings.ContainsAny(s, "0123456789"):
		why = "is negative"
	case strings.HasPrefix(strings.TrimSpace(s), "+"):
		why = "has a sign"
	case strings.Contains(s, ","):
		why = "has a comma, which some read as a decimal point"
	case strings.ContainsAny(s, "$€£¥₹") ||
		strings.ContainsFunc(s, func(r rune) bool { return r >= 'A' && r <= 'z' }):
		why = "is more than a number"
	case strings.ContainsAny(s, " \u00a0\u202f"):
		why = "has a space in it"
	case strings.ContainsAny(s, "'’_"):
		why = "has a mark between its digits"
	case strings.Contains(s, "."):
		why = "doesn't have two decimals"
	}
	var likely []string
	all := readings(s)
	if factor.MatchString(s) {
		all = nil // "1e3" and "3.5k" are not 13 and 3.5
	}
	for _, r := range all {
		likely = append(likely, fmt.Sprintf("%q", r))
	}
	hint := `write an amount such as "240.00"`
	if len(likely) > 0 {
		hint = "write " + strings.Join(likely, " or ")
	}
	return bad(hint, "%q %s", clip(s), why)
}

// readings are the amounts a text may stand for, the likelier first.
func readings(s string) []string {
	var kept strings.Builder
	for _, r := range s {
		if r >= '0' && r <= '9' || r == '.' || r == ',' {
			kept.WriteRune(r)
		}
	}
	text := strings.Trim(kept.String(), ".,")
	none := strings.NewReplacer(".", "", ",", "")
	last := strings.LastIndexAny(text, ".,")
	var out []string
	add := func(amount string) {
		if c, err := ParseMoney(amount); err == nil {
			out = append(out, FormatMoney(c))
		}
	}
	if last < 0 {
		add(text)
		return out
	}
	head, tail := none.Replace(text[:last]), text[last+1:]
	switch len(tail) {
	case 1:
		add(head + "." + tail + "0")
	case 2:
		add(head + "." + tail)
	case 3:
		add(head + tail)
		if strings.LastIndexAny(text[:last], ".,") < 0 {
			add(head + "." + tail[:2])
		}
	}
	return out
}

// FormatMoney writes an amount as "1240.50"; below zero with a minus sign.
func FormatMoney(c Cents) string {
	sign := ""
	if c < 0 {
		sign, c = "-", -c
	}
	return fmt.Sprintf("%s%d.%02d", sign, c/100, c%100)
}

// digits says whether a text is one or more ASCII digits.
func digits(s string) bool {
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return s != ""
}

// clip shortens a text for a message.
func clip(s string) string { return shorten(s, 40) }

// shorten keeps the first characters of a text, at most so many.
func shorten(s string, most int) string {
	n := 0
	for i := range s {
		if n == most {
			return s[:i] + "..."
		}
		n++
	}
	return s
}
