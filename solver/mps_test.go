package solver

import (
	"io"
	"testing"
)

// A program is written column by column: nothing is kept for each of them.
func TestMPSIsStreamed(t *testing.T) {
	p := &Problem{Rows: []Row{{Sense: AtMost, Limit: 1000}}, Switches: []Switch{{Fixed: 5, Minimum: 9}}}
	near := WithinTolerance{Groups: []int{0, 1}, Tolerance: 1}
	const n = 20_000
	for range 2 {
		var g Group
		var values []int64
		for c := range n {
			g.Columns = append(g.Columns, Column{
				Cost:  int64(c),
				Terms: []Term{{Row: 0, Coef: int64(c % 7)}},
				Needs: []int{0},
				Loads: []Load{{Switch: 0, Amount: 1}},
			})
			values = append(values, int64(c%4))
		}
		p.Groups = append(p.Groups, g)
		near.Values = append(near.Values, values)
	}
	p.WithinTolerance = []WithinTolerance{near}
	if allocs := testing.AllocsPerRun(1, func() {
		if err := p.WriteMPS(io.Discard); err != nil {
			t.Fatal(err)
		}
	}); allocs > n/10 {
		t.Errorf("%.0f pieces of memory for %d columns", allocs, 2*n)
	}
}
