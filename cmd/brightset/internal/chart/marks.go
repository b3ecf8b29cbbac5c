package chart

import (
	"cmp"
	"slices"
)

// mark is a line of Dots while it is drawn: its name stands in a row above the dots, and
// the line goes down from there.
type mark struct {
	x           float64
	text, whole string
	left        bool // the name stands to the left of the line
	dash        string
}

// reach is what the name takes up across.
func (m *mark) reach() (from, to float64) {
	if m.left {
		return m.x - 6 - wide(m.text), m.x - 6
	}
	return m.x + 6, m.x + 6 + wide(m.text)
}

// placeMarks puts the names into rows so that few lines go through names: names to the
// right of their lines stepwise down to the right, names to the left down to the left.
func (d *dots) placeMarks() {
	var rights, lefts []mark
	for i, l := range d.lines() {
		m := mark{x: d.axis.place(float64(l.Cents)), dash: dashes[min(i, len(dashes)-1)]}
		tail, room := " "+money(l.Cents), d.width()-m.x-10
		var ok bool
		if m.text, m.whole, ok = labelled(l.Label, tail, room); ok && m.text == m.whole || m.x < d.width()/2 {
			rights = append(rights, m)
			continue
		}
		m.left = true
		m.text, m.whole, _ = labelled(l.Label, tail, m.x-10)
		lefts = append(lefts, m)
	}
	byPlace := func(a, b mark) int { return cmp.Compare(a.x, b.x) }
	slices.SortStableFunc(rights, byPlace)
	slices.SortStableFunc(lefts, func(a, b mark) int { return byPlace(b, a) })
	one, other := slices.Concat(rights, lefts), slices.Concat(lefts, rights)
	if d.marks = one; crossings(other) < crossings(one) {
		d.marks = other
	}
}

// crossings is how many lines go through names: those of rows above.
func crossings(marks []mark) int {
	n := 0
	for i := range marks {
		n += len(through(marks, i))
	}
	return n
}

// through are the lines that go through a name.
func through(marks []mark, i int) []mark {
	var out []mark
	from, to := marks[i].reach()
	for _, m := range marks[:i] {
		if m.x > from-3 && m.x < to+3 {
			out = append(out, m)
		}
	}
	return out
}

// drawMarks draws the lines and then their names, for which lines are broken.
func (d *dots) drawMarks(s *svg, top, base float64) {
	for i, m := range d.marks {
		s.line(m.x, top+rowGap*float64(i)+2, m.x, base, ink, 1.5, m.dash)
	}
	for i, m := range d.marks {
		y := top + rowGap*float64(i) + rise
		for _, l := range through(d.marks, i) {
			s.rect(box{l.x - 2, y - rise, l.x + 2, y + fall}, paper, "", "")
		}
		anchor, x := start, m.x+6
		if m.left {
			anchor, x = end, m.x-6
		}
		s.words(x, y, anchor, "", m.text, m.whole)
	}
}
