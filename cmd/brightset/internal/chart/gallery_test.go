package chart

import (
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the golden files anew")

// goldens lie with those of the whole program.
const goldens = "../../../../testdata/golden"

var long = strings.Repeat("a very long name that goes on ", 10)

// gallery is a drawing of every kind and of what goes to its limits.
func gallery() map[string]Drawing {
	frame := func(id string) Frame { return Frame{ID: id, Title: "Title of " + id, Note: "How to read it."} }
	budget := &Line{"budget", 2300_00}
	steps := []Point{{X: 80.1, Cents: 1378_00}, {X: 84, Cents: 1461_00}, {X: 87.2, Cents: 1533_40},
		{X: 89.9, Cents: 1800_00}, {X: 90.4, Cents: 1912_00}, {X: 92.1, Cents: 2100_00}, {X: 93.3, Cents: 2350_00},
		{X: 94.5, Cents: 2980_00}}
	twenty := []int64{1800_00, 1800_00, 1800_00, 1800_00, 1800_00, 1800_00, 1800_00, 1800_00, 1920_00, 1920_00, 1930_00,
		1940_00, 2010_00, 2010_00, 2050_00, 2110_00, 2200_00, 2300_00, 2300_01, 2700_00}
	return map[string]Drawing{
		"frontier": Frontier{Frame: frame("f"), Across: "mean grade", Up: "expected", Currency: "USD", Points: steps,
			Limit: budget, Beyond: "over budget", Flags: []Flag{
				{steps[3], "advised", true}, {steps[3], "enough for a show", false}, {steps[1], "driver", false},
				{steps[7], "concours", false}, {Point{X: 86, Cents: 2000_00}, "off the curve", false}}}.Draw(),
		"frontier-one": Frontier{
			Frame:  frame("f1"),
			Across: "grade",
			Up:     "cost",
			Points: steps[:1],
			Flags:  []Flag{{steps[0], "the only one", true}},
		}.Draw(),
		"frontier-two": Frontier{
			Frame: frame("f2"), Across: long, Up: long, Currency: "USD", Points: steps[:2],
			Flags: []Flag{{steps[0], long, true}, {steps[1], "<b>\"&'</b>", false}}, Limit: &Line{"budget", 90_000_00},
		}.Draw(),
		"frontier-equal": Frontier{
			Frame:  frame("fe"),
			Across: "grade",
			Up:     "cost",
			Points: []Point{steps[0], steps[0], steps[0]},
		}.Draw(),
		"frontier-huge": Frontier{
			Frame:    frame("fh"),
			Across:   "grade",
			Up:       "cost",
			Currency: "USD",
			Points:   []Point{{X: 1, Cents: 1 << 53}, {X: 2, Cents: 3 << 53}},
			Flags:    []Flag{{Point{X: 2, Cents: 3 << 53}, "dear", true}},
		}.Draw(),
		"frontier-crowded": crowded().Draw(),
		"dots": Dots{
			Frame:    frame("d"),
			Across:   "spent",
			Currency: "USD",
			Sums:     twenty,
			Limit:    budget,
			Lines:    []Line{{"if all goes well", 1800_00}, {long, 2100_00}},
		}.Draw(),
		"dots-equal": Dots{Frame: frame("de"), Across: "spent", Sums: make([]int64, 20), Limit: &Line{"budget", 0}}.Draw(),
		"bars": Bars{
			Frame:    frame("b"),
			Currency: "USD",
			Total:    "in all",
			Bars: []Bar{{"plating", 1240_50}, {long, 320_00}, {"nothing", 0}, {"שלום עולם", 80_00}, {"<script>", 1},
				{"credits", -130_00}},
		}.Draw(),
		"bars-huge": Bars{
			Frame:    frame("bh"),
			Currency: long,
			Total:    long,
			Bars:     []Bar{{long, 1 << 53}, {"", -1 << 52}},
		}.Draw(),
	}
}

// crowded has more names than room.
func crowded() Frontier {
	f := Frontier{Frame: Frame{ID: "fc", Title: "Crowded"}, Across: "grade", Up: "cost", Currency: "USD"}
	for i := range 149 {
		p := Point{X: 60 + 0.22*float64(i), Cents: int64(1000_00 + 4000*i + 10*i*i)}
		f.Points = append(f.Points, p)
		if i >= 70 && i < 100 && i%2 == 0 {
			f.Flags = append(f.Flags, Flag{p, fmt.Sprintf("target-%d", i), i == 84})
		}
	}
	return f
}

// TestGolden compares the gallery with testdata/golden/chart-NAME.svg. After a change
// that is meant: go test ./cmd/brightset/internal/chart -update, and look at them.
func TestGolden(t *testing.T) {
	for name, d := range gallery() {
		t.Run(name, func(t *testing.T) {
			checked(t, d)
			path := filepath.Join(goldens, "chart-"+name+".svg")
			if *update {
				if err := os.WriteFile(path, []byte(d.SVG+"\n"), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(path)
			if err != nil || string(want) != d.SVG+"\n" {
				t.Errorf("%v: not as in %s:\n%s", err, path, d.SVG)
			}
		})
	}
}

// TestSame draws everything twice: nothing depends on the order of a map or on the time.
func TestSame(t *testing.T) {
	one, two := gallery(), gallery()
	for name := range one {
		if one[name].SVG != two[name].SVG {
			t.Errorf("%s differs from time to time", name)
		}
	}
}

func TestNothingToShow(t *testing.T) {
	for name, d := range map[string]Drawing{
		"frontier": Frontier{}.Draw(),
		"no number": Frontier{
			Points: []Point{{X: math.NaN()}, {X: math.Inf(-1)}},
			Flags:  []Flag{{Point{X: math.Inf(1)}, "x", true}},
		}.Draw(),
		"dots": Dots{Limit: &Line{"x", 1}}.Draw(), "bars": Bars{Total: "x"}.Draw(),
	} {
		checked(t, d)
		if d.SVG != "" {
			t.Errorf("%s: a drawing of nothing: %s", name, d.SVG)
		}
	}
}
