package chart

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// Dots draws how a sum may turn out: each dot is one of the outcomes, all equally likely,
// stacked where they are close. Twenty are what people count at a glance; of more than a
// hundred, a hundred evenly spaced ones are drawn.
type Dots struct {
	Frame
	Across   string // what the sums are, such as "spent"
	Currency string
	Sums     []int64 // cents, in any order
	// Limit parts the dots: those up to it are filled, those above it hollow and
	// crossed, and how many there are of each is written above. nil: none.
	Limit *Line
	// Lines are further sums to hold the dots against, such as the sum that is planned.
	Lines []Line
}

const mostDots = 100

// Draw makes the drawing. Its table has a row for every dot, by rising sum, and then one
// for every line.
func (d Dots) Draw() Drawing {
	sums := slices.Sorted(slices.Values(d.Sums))
	if len(sums) > mostDots {
		kept := make([]int64, mostDots)
		for i := range kept {
			kept[i] = sums[(2*i+1)*len(sums)/(2*mostDots)]
		}
		sums = kept
	}
	d.Sums = sums
	t := d.table()
	if len(sums) == 0 {
		return Drawing{Table: t}
	}
	p := &dots{Dots: d}
	return Drawing{SVG: p.draw(), Table: t}
}

// lines are the limit, if there is one, and the others.
func (d *Dots) lines() []Line {
	if d.Limit == nil {
		return d.Lines
	}
	return append([]Line{*d.Limit}, d.Lines...)
}

// above is how many dots lie above the limit.
func (d *Dots) above() int {
	n := 0
	for _, v := range d.Sums {
		if d.Limit != nil && v > d.Limit.Cents {
			n++
		}
	}
	return n
}

func (d *Dots) table() Table {
	var t Table
	t.words("outcome")
	t.sums(inCurrency(d.Across, d.Currency))
	if d.Limit != nil {
		t.words(d.Limit.Label)
	}
	row := func(what string, v int64, where string) { t.row([]string{what, Money(v), where}[:len(t.Heads)]...) }
	for i, v := range d.Sums {
		where := "within"
		if d.Limit != nil && v > d.Limit.Cents {
			where = "above"
		}
		row(fmt.Sprintf("%d of %d", i+1, len(d.Sums)), v, where)
	}
	for _, l := range d.lines() {
		row(l.Label, l.Cents, "")
	}
	return t
}

func (d *Dots) describe() string {
	var b strings.Builder
	n := len(d.Sums)
	fmt.Fprintf(&b, "%d dots, each as likely as the others, of %s: from %s to %s.", n, inCurrency(d.Across, d.Currency),
		Money(d.Sums[0]), Money(d.Sums[n-1]))
	for _, l := range d.lines() {
		fmt.Fprintf(&b, " %s: %s.", l.Label, Money(l.Cents))
	}
	if d.Limit != nil {
		fmt.Fprintf(&b, " %d of %d above it: %s.", d.above(), n, d.Limit.Label)
	}
	return b.String()
}

// dots is a Dots while it is drawn.
type dots struct {
	Dots
	axis   scale
	radius float64
	stacks []stack
	marks  []mark
}

// stack is dots that stand on each other.
type stack struct {
	x    float64
	from int // the first of its dots
	n    int
}

func (d *dots) layOut() {
	least, most := d.Sums[0], d.Sums[len(d.Sums)-1]
	for _, l := range d.lines() {
		least, most = min(least, l.Cents), max(most, l.Cents)
	}
	w := d.width()
	for n := 6; n > 0; n-- {
		d.axis = moneyScale(least, most, n)
		// A dot has room beside the ends, and so has half a label.
		side := math.Max(22, d.axis.widest()/2+2)
		d.axis.from, d.axis.to = side, w-side
		if (d.axis.widest()+14)*float64(len(d.axis.ticks)-1) <= w-2*side {
			break
		}
	}
	// High stacks have small dots.
	for d.radius = 9; ; d.radius-- {
		d.stack()
		tallest := 0
		for _, s := range d.stacks {
			tallest = max(tallest, s.n)
		}
		if d.radius <= 3 || float64(tallest)*2*d.radius <= 200 {
			return
		}
	}
}

// stack puts the dots into bins as wide as a dot. A bin ends at the limit, so that a dot
// stands on the side of the line that it belongs to.
func (d *dots) stack() {
	d.stacks = nil
	bin := 2*d.radius + 1
	origin := (d.axis.from + d.axis.to) / 2
	if d.Limit != nil {
		origin = d.axis.place(float64(d.Limit.Cents))
	}
	side := func(v int64) bool { return d.Limit != nil && v > d.Limit.Cents }
	for i, v := range d.Sums {
		k := math.Ceil((d.axis.place(float64(v)) - origin) / bin)
		if side(v) {
			k = math.Max(k, 1)
		} else if d.Limit != nil {
			k = math.Min(k, 0)
		}
		x := origin + (k-0.5)*bin
		if n := len(d.stacks); n > 0 && d.stacks[n-1].x == x {
			d.stacks[n-1].n++
		} else {
			d.stacks = append(d.stacks, stack{x, i, 1})
		}
	}
}
