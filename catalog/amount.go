package catalog

import (
	"fmt"
	"strconv"
	"strings"
)

// ParseGrade reads a grade: a number 0..100 or a word of the grade table.
func ParseGrade(s string, tables *Tables) (Centi, error) {
	return numberOrWord(s, "grade", tables.Grades, 0, MaxGrade)
}

// ParseTone reads a tone: a number on the CIE b* axis or a word of the tone
// table.
func ParseTone(s string, tables *Tables) (Centi, error) {
	return numberOrWord(s, "tone", tables.Tones, -MaxTone, MaxTone)
}

func numberOrWord(s, kind string, words []Word, least, most Centi) (Centi, error) {
	text := strings.TrimSpace(s)
	if f, ok := plainFloat(text); ok {
		c, problem := scaled(f, least, most, 100)
		if problem != nil {
			return 0, problem
		}
		return c, nil
	}
	var names []string
	for _, w := range words {
		if strings.EqualFold(w.Name, text) {
			return w.Value, nil
		}
		names = append(names, w.Name)
	}
	return 0, bad(meant(text, names, ""), "unknown %s %q", kind, clip(s))
}

// plainFloat reads digits, at most one point and a sign; no exponents, no
// "inf", no hexadecimal.
func plainFloat(s string) (float64, bool) {
	whole, frac, hasPoint := strings.Cut(strings.TrimPrefix(s, "-"), ".")
	if !digits(whole) || hasPoint && !digits(frac) {
		return 0, false
	}
	f, err := strconv.ParseFloat(s, 64)
	return f, err == nil
}

// FormatMicro writes millionths as a plain decimal without trailing zeros:
// "0.05", "3.2", "1".
func FormatMicro(m Micro) string { return decimal(int64(m), 6) }

// FormatCenti writes hundredths as a plain decimal without trailing zeros:
// "62", "62.5", "-0.4".
func FormatCenti(c Centi) string { return decimal(int64(c), 2) }

// decimal writes n * 10^-places.
func decimal(n int64, places int) string {
	sign := ""
	if n < 0 {
		sign, n = "-", -n
	}
	text := fmt.Sprintf("%0*d", places+1, n)
	cut := len(text) - places
	frac := strings.TrimRight(text[cut:], "0")
	if frac == "" {
		return sign + text[:cut]
	}
	return sign + text[:cut] + "." + frac
}
