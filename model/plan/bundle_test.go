package plan

import (
	"testing"

	"brightset/catalog"
)

// TestBundleText: a bundle, a box, several, and so much more or less of them.
func TestBundleText(t *testing.T) {
	crate, screws := &catalog.Bundle{ID: "crate", Price: 60_00}, &catalog.Bundle{ID: "screws", Price: 11_00, Box: 50}
	for _, c := range []struct {
		of    *catalog.Bundle
		cents catalog.Cents
		want  string
	}{
		{crate, 60_00, "bundle crate"}, {screws, 11_00, "a box of 50 of screws"},
		{screws, -11_00, "a box of 50 of screws"},
		{screws, 33_00, "3 boxes of screws, 50 in each"},
		{&catalog.Bundle{ID: "free", Box: 9}, 0, "boxes of free, 9 in each"},
	} {
		if got := BundleText(c.of, c.cents); got != c.want {
			t.Errorf("%d: %q, want %q", c.cents, got, c.want)
		}
	}
}
