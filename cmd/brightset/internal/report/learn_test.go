package report

import (
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/model/risk"
)

// TestSpreadTold: how far the guesses of a plater's work were off is told, and written to be
// included, with ten open prices or more.
func TestSpreadTold(t *testing.T) {
	for n, told := range map[int]bool{9: false, 10: true} {
		l := &Lesson{Jobs: 1, Learnt: &risk.Learnt{Count: n, Platers: []risk.PlaterRate{
			{Plater: "north", N: n, GuessN: n, Low: 0.04, High: 0.2234, Factor: 1}}}}
		file := LearntFile(l, "2031-01-02")
		if strings.Contains(file, "spread_low = 0.04 ") != told || strings.Contains(file, "spread_high = 0.223 ") != told {
			t.Errorf("%d prices: %s", n, file)
		}
		if text := Learn(l); strings.Contains(text, "4% below") != told || strings.Contains(text, "22% above") != told {
			t.Errorf("%d prices: %s", n, text)
		}
	}
}

// TestFactorsBefore: a plater's factor that the shop gives itself hides what is learnt of him, and is told.
func TestFactorsBefore(t *testing.T) {
	l := &Lesson{Learnt: &risk.Learnt{Platers: []risk.PlaterRate{{Plater: "north", N: 5, Factor: 1.401}}}}
	for own, told := range map[catalog.Micro]bool{600_000: true, catalog.One: false, 1_401_000: false, 0: false} {
		text := FactorsBefore(l, map[string]catalog.Micro{"north": own})
		if strings.Contains(text, "give north a breakage_factor of 0.6 already") != told {
			t.Errorf("%d: %q", own, text)
		}
	}
}
