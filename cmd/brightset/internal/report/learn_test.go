package report

import (
	"strings"
	"testing"

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
