package chart

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// segments are the straight lines of the drawing that names have to keep off.
func segments(t testing.TB, all []*element) [][4]float64 {
	var out [][4]float64
	for _, e := range all {
		switch {
		case e.name == "line" && e.at["stroke"] == ink:
			out = append(out, [4]float64{e.num(t, "x1"), e.num(t, "y1"), e.num(t, "x2"), e.num(t, "y2")})
		case e.name == "path":
			for _, part := range strings.Split(e.at["d"], "M")[1:] {
				var last [2]float64
				for i, p := range strings.Split(part, "L") {
					var x, y float64
					if _, err := fmt.Sscan(p, &x, &y); err != nil {
						t.Fatal(err, p)
					}
					if i > 0 {
						out = append(out, [4]float64{last[0], last[1], x, y})
					}
					last = [2]float64{x, y}
				}
			}
		}
	}
	return out
}

// runsThrough says whether a line meets a box, looked at closely along it.
func runsThrough(s [4]float64, b box) bool {
	const n = 400
	for i := range n + 1 {
		f := float64(i) / n
		if x, y := s[0]+f*(s[2]-s[0]), s[1]+f*(s[3]-s[1]); x > b.x0 && x < b.x1 && y > b.y0 && y < b.y1 {
			return true
		}
	}
	return false
}

// uncovered fails where a name lies on a point, a flag, the curve or a line.
func uncovered(t testing.TB, all []*element) {
	t.Helper()
	lines := segments(t, all)
	for _, e := range named(all, "text") {
		b := e.box(t)
		if b.x1-b.x0 < 4 {
			continue
		}
		b = box{b.x0 + 1, b.y0 + 2, b.x1 - 1, b.y1 - 2}
		for _, c := range named(all, "circle") {
			d := disc{c.num(t, "cx"), c.num(t, "cy"), c.num(t, "r")}
			number := d.r >= 11 && disc{d.x, d.y, 0.1}.meets(b)
			if d.meets(b) && !number {
				t.Errorf("%q on the point %v", e.text, d)
			}
		}
		for _, p := range named(all, "polygon") {
			var v [8]float64
			fmt.Sscan(p.at["points"], &v[0], &v[1], &v[2], &v[3], &v[4], &v[5], &v[6], &v[7])
			if (disc{v[0], v[3], chiefRadius * 0.7}).meets(b) {
				t.Errorf("%q on the chief flag", e.text)
			}
		}
		for _, s := range lines {
			if runsThrough(s, b) && !inRing(t, all, b, s) {
				t.Errorf("%q on the line %v", e.text, s)
			}
		}
	}
}

// inRing says whether the text is a number in a ring, to the middle of which a line leads.
func inRing(t testing.TB, all []*element, b box, s [4]float64) bool {
	return slices.ContainsFunc(named(all, "circle"), func(c *element) bool {
		d := disc{c.num(t, "cx"), c.num(t, "cy"), 0.2}
		return c.num(t, "r") >= 11 && d.meets(b) && d.meets(box{s[2] - 0.1, s[3] - 0.1, s[2] + 0.1, s[3] + 0.1})
	})
}

// TestCrowdedNames wants every name somewhere: beside its point or under the drawing.
func TestCrowdedNames(t *testing.T) {
	f := crowded()
	all := checked(t, f.Draw())
	uncovered(t, all)
	if says(all, f.Flags[7].Label) == nil || !f.Flags[7].Chief {
		t.Error("the chief flag is not named beside its point")
	}
	for _, flag := range f.Flags {
		if says(all, flag.Label+": ") == nil && says(all, flag.Label+" ") == nil {
			t.Errorf("%q is nowhere", flag.Label)
		}
	}
	numbers := 0
	for _, e := range named(all, "text") {
		if e.text == "3" {
			numbers++
		}
	}
	if numbers != 2 {
		t.Errorf("the number 3 stands %d times: by its point and before its name", numbers)
	}
}

func TestFrontierPlaces(t *testing.T) {
	points := []Point{{X: 94, Cents: 3000_00}, {X: 80, Cents: 1000_00}, {X: 87, Cents: 2000_00, Beyond: true}}
	all := checked(t, Frontier{Across: "grade", Up: "cost", Points: points}.Draw())
	var xs, ys []float64
	for _, c := range named(all, "circle") {
		xs, ys = append(xs, c.num(t, "cx")), append(ys, c.num(t, "cy"))
	}
	if !slices.IsSorted(xs) || len(xs) != 3 || !(ys[0] > ys[1] && ys[1] > ys[2]) {
		t.Fatal(xs, ys)
	}
	// 87 lies half way from 80 to 94, 2000 half way from 1000 to 3000.
	if d := xs[1] - (xs[0]+xs[2])/2; d > 0.2 || d < -0.2 {
		t.Error(xs)
	}
	if d := ys[1] - (ys[0]+ys[2])/2; d > 0.2 || d < -0.2 {
		t.Error(ys)
	}
	if named(all, "circle")[1].at["fill"] != paper || named(all, "circle")[0].at["fill"] == paper {
		t.Error("the point out of reach is not hollow, or another is")
	}
	// The step to a point is climbed before it: below 87 the cost is that of 80.
	want := fmt.Sprintf("M%v %vL%v %vL%v %v", xs[0], ys[0], xs[0], ys[1], xs[1], ys[1])
	if d := named(all, "path")[0].at["d"]; !strings.HasPrefix(d, want) {
		t.Errorf("%s, want %s", d, want)
	}
}

func TestFrontierTable(t *testing.T) {
	f := Frontier{Across: "grade", Up: "cost", Currency: "USD", Beyond: "over budget",
		Points: []Point{{X: 94.25, Cents: 3000_05}, {X: 80, Cents: 12345_67}}, Limit: &Line{"budget", 5000_00},
		Flags: []Flag{{Point{X: 80, Cents: 12345_67}, "b", false}, {Point{X: 70, Cents: 1}, "off", false},
			{Point{X: 80, Cents: 12345_67}, "a", true}}}
	want := "[grade cost, USD named] [true true false] [[80.0 12345.67 b, a, over budget] [94.3 3000.05 ] [70.0 0.01 off]]"
	d := f.Draw()
	if got := fmt.Sprint(d.Table.Heads, d.Table.Right, d.Table.Rows); got != want {
		t.Errorf("\n%s\n%s", got, want)
	}
	desc := named(checked(t, d), "desc")[0].text
	for _, part := range []string{"2 points of cost, USD against grade", "from 12345.67 for 80.0 to 3000.05 for 94.3",
		"b, a: 12345.67 for 80.0", "1 of the points over budget", "budget: 5000.00"} {
		if !strings.Contains(desc, part) {
			t.Errorf("%q lacks %q", desc, part)
		}
	}
}

// TestFarLimit keeps the curve from being pressed flat.
func TestFarLimit(t *testing.T) {
	points := []Point{{X: 80, Cents: 1000_00}, {X: 90, Cents: 1500_00}}
	near := checked(t, Frontier{Across: "g", Up: "c", Points: points, Limit: &Line{"budget", 1700_00}}.Draw())
	far := checked(t, Frontier{Across: "g", Up: "c", Points: points, Limit: &Line{"budget", 90_000_00}}.Draw())
	dashes := func(all []*element) int {
		n := 0
		for _, e := range named(all, "line") {
			if e.at["stroke-dasharray"] != "" {
				n++
			}
		}
		return n
	}
	if dashes(near) != 1 || says(near, "budget 1700.00") == nil {
		t.Error("a limit close by is not drawn")
	}
	if dashes(far) != 0 || says(far, "budget 90\u202f000.00, off the scale") == nil {
		t.Error("a limit far away is drawn, or not told")
	}
}
