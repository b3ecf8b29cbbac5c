package report

import (
	"testing"

	"brightset/catalog"
)

// What is not nothing never shows as nothing, what is not certain never as
// certain.
func TestPercent(t *testing.T) {
	cases := map[catalog.Micro]string{
		0: "0%", 1: "<0.1%", 999: "<0.1%", 1000: "0.1%", 12_500: "1.3%", 500_000: "50.0%",
		999_000: "99.9%", 999_001: ">99.9%", 999_999: ">99.9%", 1_000_000: "100%",
	}
	for p, want := range cases {
		if got := Percent(p); got != want {
			t.Errorf("Percent(%d) = %q, want %q", p, got, want)
		}
	}
}
