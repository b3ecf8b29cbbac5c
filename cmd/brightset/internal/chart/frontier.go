package chart

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Point is a number and the sum that belongs to it.
type Point struct {
	X      float64
	Cents  int64
	Beyond bool // out of reach as things stand: hollow. Of a flag it does not count
}

// same says whether two points lie at the same place.
func (p Point) same(q Point) bool { return p.X == q.X && p.Cents == q.Cents }

// Flag names a point, which need not be one of the curve.
type Flag struct {
	Point
	Label string
	Chief bool // the one that counts: drawn larger, filled
}

// Frontier draws what more of something costs: for every number the least sum that
// reaches it, as steps. Flags are named beside the curve where there is room; where there
// is none, a number stands there, and the name under the drawing.
type Frontier struct {
	Frame
	Across   string // what the numbers are, such as "mean grade"
	Up       string // what the sums are, such as "cost"
	Currency string
	Points   []Point // in any order; those whose number is none (NaN, Inf) are left out
	Flags    []Flag
	Limit    *Line  // a line across; points above it are hollow. nil: none
	Beyond   string // what hollow points are, such as "over budget"; written below if there are any
}

// Draw makes the drawing. Its table has a row for every point, by rising number, with the
// flags that stand there; then one for every place where flags stand off all points.
func (f Frontier) Draw() Drawing {
	points, flags := sound(f.Points), groups(f.Flags)
	t := f.table(points, flags)
	if len(points)+len(flags) == 0 {
		return Drawing{Table: t}
	}
	d := &frontier{Frontier: f, points: points, flags: flags}
	return Drawing{SVG: d.draw(), Table: t}
}

// sound are the points that can be drawn, in order.
func sound(points []Point) []Point {
	var out []Point
	for _, p := range points {
		if !math.IsNaN(p.X) && !math.IsInf(p.X, 0) {
			p.X = math.Max(-farthestNumber, math.Min(farthestNumber, p.X))
			out = append(out, p)
		}
	}
	slices.SortStableFunc(out, byNumber)
	return out
}

// farthestNumber is how far a number may lie from nothing.
const farthestNumber = 1e9

func byNumber(a, b Point) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Cents, b.Cents)) }

// group is the flags of one point.
type group struct {
	Point
	labels []string
	chief  bool
}

func groups(flags []Flag) []*group {
	var all []*group
	for _, f := range flags {
		at := sound([]Point{f.Point})
		if len(at) == 0 {
			continue
		}
		i := slices.IndexFunc(all, func(g *group) bool { return g.same(at[0]) })
		if i < 0 {
			i, all = len(all), append(all, &group{Point: at[0]})
		}
		all[i].labels = append(all[i].labels, f.Label)
		all[i].chief = all[i].chief || f.Chief
	}
	slices.SortStableFunc(all, func(a, b *group) int {
		if a.chief != b.chief { // the chief one chooses its place first
			if a.chief {
				return -1
			}
			return 1
		}
		return byNumber(a.Point, b.Point)
	})
	return all
}

func (f *Frontier) table(points []Point, flags []*group) Table {
	var t Table
	t.sums(f.Across)
	t.sums(inCurrency(f.Up, f.Currency))
	t.words("named")
	rest := slices.Clone(flags)
	for _, p := range points {
		named := ""
		if i := slices.IndexFunc(rest, func(g *group) bool { return g.same(p) }); i >= 0 {
			named, rest = strings.Join(rest[i].labels, ", "), slices.Delete(rest, i, i+1)
		}
		if f.beyond(p) {
			named = strings.Trim(named+", "+f.Beyond, ", ")
		}
		t.row(number(p.X), Money(p.Cents), named)
	}
	for _, g := range rest {
		t.row(number(g.X), Money(g.Cents), strings.Join(g.labels, ", "))
	}
	return t
}

// beyond says whether a point is out of reach.
func (f *Frontier) beyond(p Point) bool {
	return p.Beyond || f.Limit != nil && p.Cents > f.Limit.Cents
}

// number writes a number to a tenth.
func number(v float64) string { return strconv.FormatFloat(math.Round(v*10)/10+0, 'f', 1, 64) }

// inCurrency puts the currency behind a word, if there is one.
func inCurrency(what, currency string) string {
	if currency == "" {
		return what
	}
	return what + ", " + currency
}

// outOfReach is how many points are.
func (d *frontier) outOfReach() int {
	n := 0
	for _, p := range d.points {
		if d.beyond(p) {
			n++
		}
	}
	return n
}

// describe says the same in words.
func (d *frontier) describe() string {
	var b strings.Builder
	if n := len(d.points); n > 0 {
		first, last := d.points[0], d.points[n-1]
		fmt.Fprintf(&b, "%d points of %s against %s", n, inCurrency(d.Up, d.Currency), d.Across)
		if n > 1 {
			fmt.Fprintf(&b, ", from %s for %s to %s for %s", Money(first.Cents), number(first.X), Money(last.Cents),
				number(last.X))
		} else {
			fmt.Fprintf(&b, ": %s for %s", Money(first.Cents), number(first.X))
		}
		b.WriteString(".")
	}
	const most = 12
	for i, g := range d.flags {
		if i == most {
			fmt.Fprintf(&b, " And %d more.", len(d.flags)-most)
			break
		}
		fmt.Fprintf(&b, " %s: %s for %s.", shorten(plain(strings.Join(g.labels, ", ")), 600), Money(g.Cents), number(g.X))
	}
	if n := d.outOfReach(); n > 0 && d.Beyond != "" {
		fmt.Fprintf(&b, " %d of the points %s.", n, d.Beyond)
	}
	if d.Limit != nil {
		fmt.Fprintf(&b, " %s: %s.", d.Limit.Label, Money(d.Limit.Cents))
	}
	return b.String()
}
