package joint

import (
	"fmt"
	"testing"

	"brightset/catalog"
)

func TestApportion(t *testing.T) {
	for _, c := range []struct {
		cents  catalog.Cents
		weight []catalog.Cents
		want   string
	}{
		{100, []catalog.Cents{1, 1, 1}, "[34 33 33]"},
		{100, []catalog.Cents{1, 0, 1}, "[50 0 50]"},
		{1, []catalog.Cents{1, 1}, "[1 0]"},
		{10, []catalog.Cents{1, 2, 3}, "[2 3 5]"},
		{7, []catalog.Cents{0, 3, 0}, "[0 7 0]"},
		{0, []catalog.Cents{3, 4}, "[0 0]"},
		{1 << 50, []catalog.Cents{1 << 50, 1 << 51}, fmt.Sprint([]catalog.Cents{375299968947541, 750599937895083})},
	} {
		if got := fmt.Sprint(apportion(c.cents, c.weight)); got != c.want {
			t.Errorf("%d by %v: %s, want %s", c.cents, c.weight, got, c.want)
		}
	}
}
