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
	anchor      string // start: to the right of the line. end: to the left. middle: over it
	dash        string
}

// reach is what the name takes up across.
func (m *mark) reach() (from, to float64) {
	w := wide(m.text)
	switch m.anchor {
	case start:
		return m.x + markGap, m.x + markGap + w
	case end:
		return m.x - markGap - w, m.x - markGap
	}
	return 4, 4 + w
}

// markGap is between a line and its name.
const markGap = 6.0

// newMark puts a name to the right of its line, where the whole has room; else to the
// side where there is more; else, for the longest sums on the narrowest drawings, over it.
func (d *dots) newMark(l Line, i int) mark {
	m := mark{x: d.axis.place(float64(l.Cents)), anchor: start, dash: dashes[min(i, len(dashes)-1)]}
	sum := " " + money(l.Cents)
	right, left := d.width()-m.x-markGap-4, m.x-markGap-4
	if m.text, m.whole, _ = labelled(l.Label, sum, right); m.text == m.whole && wide(m.text) <= right {
		return m
	}
	room := right
	if left > right {
		m.anchor, room = end, left
	}
	var ok bool
	if m.text, m.whole, ok = labelled(l.Label, sum, room); !ok || wide(m.text) > room {
		m.anchor = middle
		m.text, m.whole, _ = labelled(l.Label, sum, d.width()-8)
	}
	return m
}

// placeMarks puts the names into rows so that few lines go through names: names to the
// right of their lines stepwise down to the right, names to the left down to the left.
func (d *dots) placeMarks() {
	var rights, lefts []mark
	for i, l := range d.lines() {
		if m := d.newMark(l, i); m.anchor == end {
			lefts = append(lefts, m)
		} else {
			rights = append(rights, m)
		}
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
		from := top + rowGap*float64(i) + 2
		if m.anchor == middle {
			from += rowGap - 2
		}
		s.line(m.x, from, m.x, base, ink, 1.5, m.dash)
	}
	for i, m := range d.marks {
		y := top + rowGap*float64(i) + rise
		for _, l := range through(d.marks, i) {
			s.rect(box{l.x - 2, y - rise, l.x + 2, y + fall}, paper, "", "")
		}
		from, to := m.reach()
		if m.anchor == end {
			s.words(to, y, end, "", m.text, m.whole)
		} else {
			s.words(from, y, start, "", m.text, m.whole)
		}
	}
}
