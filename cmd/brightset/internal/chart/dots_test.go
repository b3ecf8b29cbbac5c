package chart

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// TestDotsSides wants every dot on its side of the limit, none over another, and counted.
func TestDotsSides(t *testing.T) {
	for seed := range uint64(200) {
		r := rand.New(rand.NewPCG(seed, 4))
		d := someDots(r)
		d.Limit = &Line{"budget", d.Sums[len(d.Sums)/2]}
		all := checked(t, d.Draw())
		limit := math.NaN()
		for _, e := range named(all, "line") {
			if e.at["stroke-dasharray"] == dashes[0] {
				limit = e.num(t, "x1")
			}
		}
		var dots []disc
		within, above := 0, 0
		for _, c := range named(all, "circle")[2:] { // after those of the count
			p := disc{c.num(t, "cx"), c.num(t, "cy"), c.num(t, "r")}
			hollow := c.at["fill"] == paper
			if hollow {
				above++
			} else {
				within++
			}
			if hollow == (p.x < limit) {
				t.Errorf("seed %d: a dot at %v, the limit at %v, hollow %v", seed, p.x, limit, hollow)
			}
			for _, q := range dots {
				if math.Hypot(p.x-q.x, p.y-q.y) < 2*p.r-0.3 {
					t.Errorf("seed %d: a dot over another: %v %v", seed, p, q)
				}
			}
			dots = append(dots, p)
		}
		n := min(len(d.Sums), mostDots)
		if within+above != n || says(all, fmt.Sprintf("%d of %d within ", within, n)) == nil ||
			says(all, fmt.Sprintf("%d above", above)) == nil {
			t.Errorf("seed %d: %d within, %d above, of %d", seed, within, above, n)
		}
	}
}

func TestDotsTable(t *testing.T) {
	d := Dots{
		Across:   "spent",
		Currency: "USD",
		Sums:     []int64{300, 100, 200},
		Limit:    &Line{"budget", 200},
		Lines:    []Line{{"planned", 150}},
	}.Draw()
	want := "[outcome spent, USD budget] [false true false] [[1 of 3 1.00 within] [2 of 3 2.00 within] " +
		"[3 of 3 3.00 above] [budget 2.00 ] [planned 1.50 ]]"
	if got := fmt.Sprint(d.Table.Heads, d.Table.Right, d.Table.Rows); got != want {
		t.Errorf("\n%s\n%s", got, want)
	}
	says := "3 dots, each as likely as the others, of spent, USD: from 1.00 to 3.00. " +
		"budget: 2.00. planned: 1.50. 1 of 3 above it: budget."
	if desc := named(checked(t, d), "desc")[0].text; !strings.Contains(desc, says) {
		t.Error(desc)
	}
	d = Dots{Across: "spent", Sums: []int64{2, 1}}.Draw()
	if fmt.Sprint(d.Table.Rows) != "[[1 of 2 0.01] [2 of 2 0.02]]" {
		t.Error(d.Table.Rows)
	}
}

// TestDotsThinned draws a hundred of many, evenly.
func TestDotsThinned(t *testing.T) {
	var sums []int64
	for i := range 1000 {
		sums = append(sums, int64(i))
	}
	d := Dots{Across: "x", Sums: sums}.Draw()
	n := len(named(checked(t, d), "circle"))
	if n != 100 || d.Table.Rows[0][1] != "0.05" || d.Table.Rows[99][1] != "9.95" {
		t.Error(n, d.Table.Rows[0], d.Table.Rows[len(d.Table.Rows)-1])
	}
}
