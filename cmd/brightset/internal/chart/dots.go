package chart

import "fmt"

// Mark is a line across a chart at a value, with its name.
type Mark struct {
	Label string
	Cents int64
}

// Dots draws outcomes that are equally likely, each a dot over what it costs, stacked
// where they are close. Those above the limit, if there is one, are hollow.
func Dots(id, title, currency string, sums []int64, marks []Mark, limit *int64) string {
	const left, right = 30.0, 30.0
	r := 8.0
	if len(sums) > 10 {
		r = 6
	}
	low, high := sums[0], sums[0]
	for _, v := range sums {
		low, high = min(low, v), max(high, v)
	}
	for _, m := range marks {
		low, high = min(low, m.Cents), max(high, m.Cents)
	}
	axis := ticks(float64(low), float64(high), 6)
	from, to := axis[0], axis[len(axis)-1]
	if to <= from {
		to = from + 1
	}
	at := func(v float64) float64 { return left + (v-from)/(to-from)*(Width-left-right) }
	stack, tallest := map[int]int{}, 1
	for _, v := range sums {
		bin := int(at(float64(v)) / (2*r + 2))
		stack[bin]++
		tallest = max(tallest, stack[bin])
	}
	base := float64(tallest)*(2*r+2) + 26 + 20*float64(len(marks))
	s := &svg{}
	over := 0
	for _, v := range sums {
		if limit != nil && v > *limit {
			over++
		}
	}
	desc := fmt.Sprintf("%d dots, each as likely as the others, from %s to %s %s", len(sums), Money(sums[0]), Money(sums[len(sums)-1]), currency)
	if limit != nil {
		desc += fmt.Sprintf("; %d of them above the budget", over)
	}
	s.head(id, title, desc, base+44)
	for i, m := range marks {
		y := 16 + 20*float64(i)
		x := at(float64(m.Cents))
		s.line(x, y+4, x, base, orange, 1.5, "6 4")
		label, anchor := short(m.Label+" "+Money(m.Cents), 300), "start"
		dx := 6.0
		if x+dx+wide(label) > Width-4 {
			anchor, dx = "end", -6
		}
		s.text(x+dx, y+4, anchor, label)
	}
	seen := map[int]int{}
	for _, v := range sums {
		bin := int(at(float64(v)) / (2*r + 2))
		x := (float64(bin) + 0.5) * (2*r + 2)
		y := base - r - 1 - float64(seen[bin])*(2*r+2)
		seen[bin]++
		if limit != nil && v > *limit {
			s.circle(x, y, r-1, "#ffffff", ink)
		} else {
			s.circle(x, y, r-1, blue, blue)
		}
	}
	s.line(left, base, Width-right, base, ink, 1.2, "")
	for _, v := range axis {
		s.line(at(v), base, at(v), base+5, ink, 1.2, "")
		s.text(at(v), base+21, "middle", round(int64(v)))
	}
	s.text(Width/2, base+39, "middle", "spent, "+currency)
	return s.end()
}
