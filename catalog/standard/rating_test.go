package standard

import (
	"math"
	"strings"
	"testing"
)

func TestRating(t *testing.T) {
	// ISO 10289 / ASTM B537 to 2.5 %; from 5 % on from memory
	for percent, want := range map[float64]int{
		0: 10, 0.05: 9, 0.1: 9, 0.11: 8, 0.25: 8, 0.5: 7, 1: 6, 2.5: 5,
		5: 4, 10: 3, 25: 2, 50: 1, 51: 0, 100: 0,
	} {
		if got, err := Rating(percent); err != nil || got != want {
			t.Errorf("%v %%: rating %d %v, want %d", percent, got, err, want)
		}
	}
	for r := 0; r <= 9; r++ {
		if got, err := Rating(must(AreaFor(r))); err != nil || got != r {
			t.Errorf("rating %d: its area has %d", r, got)
		}
		if r > 0 {
			if got, _ := Rating(must(AreaFor(r)) * 1.01); got != r-1 {
				t.Errorf("rating %d: a little more has %d", r, got)
			}
		}
	}
	if a, err := AreaFor(10); a != 0 || err != nil {
		t.Errorf("rating 10 allows %v %%", a)
	}
}

func TestRatingByFormula(t *testing.T) {
	within(t, "R = 3(2 - log A) is 10 at 0.046416 % (ISO 10289)", must(RatingByFormula(0.046416)), 10, 1e-4)
	within(t, "and 6 at 1 %", must(RatingByFormula(1)), 6, 1e-9)
	within(t, "and 10 below", must(RatingByFormula(0.01)), 10, 0)
	within(t, "inverse: 0.046416 % for 10", must(AreaByFormula(10)), 0.046416, 1e-4)
	for r := 0.0; r <= 10; r += 0.5 {
		if got := must(RatingByFormula(must(AreaByFormula(r)))); math.Abs(got-r) > 1e-4 {
			t.Errorf("rating %v comes back as %v", r, got)
		}
	}
	// the table's limits are those of the rule, rounded to plain figures
	for r := 1; r <= 9; r++ {
		if got := must(RatingByFormula(must(AreaFor(r)))); math.Abs(got-float64(r)) > 0.5 {
			t.Errorf("rating %d: the rule says %v at its limit", r, got)
		}
	}
}

func TestSpots(t *testing.T) {
	// rating tutorial: d1 d2 pi/4; 20 pits of 1 x 1 mm on 2 dm2 are 0.079 %
	share := must(SpotPercent(20, 1, 1, 2))
	printed(t, "20 pits on 2 dm2, in %", share, 0.079, 3)
	if r, err := Rating(share); r != 9 || err != nil {
		t.Errorf("that is rated %d %v", r, err)
	}
}

func TestRatingRange(t *testing.T) {
	for _, v := range []float64{-0.1, 100.1, math.NaN(), math.Inf(1), math.Inf(-1)} {
		if r, err := Rating(v); err == nil {
			t.Errorf("%v %% is rated %d", v, r)
		}
		if r, err := RatingByFormula(v); err == nil {
			t.Errorf("%v %% is rated %v by the rule", v, r)
		}
		if a, err := AreaByFormula(v); err == nil && v != 100.1 {
			t.Errorf("rating %v has an area %v", v, a)
		}
	}
	for _, r := range []int{-1, 11} {
		if a, err := AreaFor(r); err == nil {
			t.Errorf("rating %d has an area %v", r, a)
		}
	}
	for what, err := range map[string]error{
		"fewer than no spots": second(SpotPercent(-1, 1, 1, 1)), "no area": second(SpotPercent(1, 1, 1, 0)),
		"spots of no size": second(SpotPercent(1, 0, 1, 1)), "more spots than surface": second(SpotPercent(1000, 10, 10, 1)),
	} {
		if err == nil {
			t.Errorf("%s is taken", what)
		}
	}
}

func TestCapped(t *testing.T) {
	// ASTM B537-70: appearance never above protection
	if Capped(9, 7) != 7 || Capped(6, 7) != 6 {
		t.Error("appearance is rated above protection")
	}
}

// The words for the form carry the figures of their sources, and say what was recalled.
func TestFormWords(t *testing.T) {
	for text, want := range map[string][]string{
		Viewing:     {"600 to 900 mm", "1500 to 1600 lm/m2", "ASTM B532"},           // ASTM B532-85 cl. 4, 6
		Significant: {"20 mm", "ISO 27830"},                                         // BS EN ISO 27830:2013
		Surfaces:    {"A most prominent", "D hidden", "ASTM B532"},                  // ASTM B532-85
		Rated:       {"9 up to 0.1 %", "5 up to 2.5 %", "from memory", "ISO 10289"}, // ISO 10289
	} {
		for _, w := range want {
			if !strings.Contains(text, w) {
				t.Errorf("%q does not say %q", text, w)
			}
		}
	}
}
