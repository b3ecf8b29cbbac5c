package sharedspare

import (
	"testing"

	"brightset/catalog"
)

// TestSignedOf: half up for either sign.
func TestSignedOf(t *testing.T) {
	for _, test := range [][3]int64{
		{500_000, 1, 1}, {500_000, -1, 0}, {500_000, 3, 2}, {500_000, -3, -1}, {1_000_000, -7, -7},
		{0, -5, 0}, {400_000, -1, 0}, {600_000, -1, -1}, {250_000, -2, 0}, {750_000, -2, -1}, {999_999, -100, -100},
	} {
		if got := SignedOf(catalog.Micro(test[0]), catalog.Cents(test[1])); got != catalog.Cents(test[2]) {
			t.Errorf("%d of %d is %d, want %d", test[0], test[1], got, test[2])
		}
	}
}
