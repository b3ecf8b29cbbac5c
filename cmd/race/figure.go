package main

import (
	"fmt"
	"math"
)

// figure is a time in seconds; over where it is a lower end only.
type figure struct {
	value float64
	over  bool
}

func (f figure) String() string {
	text := fmt.Sprintf("%.1f", f.value)
	if f.value < 10 {
		text = fmt.Sprintf("%.3f", f.value)
	}
	if f.over {
		return ">" + text
	}
	return text
}

// ratio is how many times as long the fastest of the others takes as brightset.
type ratio struct {
	factor      float64
	over, under bool // only a lower or an upper end of it is known
	other       string
}

func (q ratio) String() string {
	if q.other == "" || (q.over && q.under) {
		return "-"
	}
	text := fmt.Sprintf("%.1f", q.factor)
	if q.factor < 0.95 {
		text = fmt.Sprintf("%.2f", q.factor)
	}
	return map[bool]string{true: ">"}[q.over] + map[bool]string{true: "<"}[q.under] + text
}

// geometric is a geometric mean of ratios. Where a ratio is known from one side
// only, so is the mean.
type geometric struct {
	logs        float64
	n           int
	over, under bool
}

func (g *geometric) add(q ratio) {
	if q.String() == "-" {
		return
	}
	g.logs += math.Log(q.factor)
	g.n++
	g.over, g.under = g.over || q.over, g.under || q.under
}

func (g *geometric) String() string {
	if g.n == 0 {
		return "-"
	}
	return ratio{factor: math.Exp(g.logs / float64(g.n)), over: g.over, under: g.under, other: "all"}.String()
}
