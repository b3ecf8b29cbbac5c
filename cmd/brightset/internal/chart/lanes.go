package chart

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"
)

// Span is one thing that somebody has, from a day until another, both included.
type Span struct {
	Label    string
	From, To int // days, counted from Lanes.Start. To is not before From: else it is From
}

// Lane is one who has things.
type Lane struct {
	Label string
	Spans []Span
}

// Lanes draws who has what until which day. What lies before today is filled, what lies
// ahead is hollow.
type Lanes struct {
	Frame
	Start time.Time // day 0; its time of day does not count. Zero: days stay numbers
	Today *int      // a line across; nil: none, and nothing is hollow
	Lanes []Lane    // in the order given, and their spans too
}

// farthestDay is how far a day may lie from day 0: some 2700 years.
const farthestDay = 1_000_000

// Draw makes the drawing. Its table has a row for every span.
func (l Lanes) Draw() Drawing {
	l.Lanes = slices.Clone(l.Lanes)
	var t Table
	for _, head := range []string{"who", "what", "from", "until"} {
		t.words(head)
	}
	spans := 0
	for i := range l.Lanes {
		lane := &l.Lanes[i]
		lane.Spans = slices.Clone(lane.Spans)
		for k := range lane.Spans {
			s := &lane.Spans[k]
			s.From = max(-farthestDay, min(farthestDay, s.From))
			s.To = max(s.From, min(farthestDay, s.To))
			t.row(lane.Label, s.Label, l.day(s.From), l.day(s.To))
			spans++
		}
	}
	if spans == 0 {
		return Drawing{Table: t}
	}
	return Drawing{SVG: l.draw(), Table: t}
}

// day writes a day as a date, if it is known which it is.
func (l *Lanes) day(n int) string {
	if l.Start.IsZero() {
		return "day " + strconv.Itoa(n)
	}
	y, m, d := l.Start.Date()
	return time.Date(y, m, d+n, 0, 0, 0, 0, time.UTC).Format("2006-01-02")
}

func (l *Lanes) describe() string {
	const most = 15
	var b strings.Builder
	n := 0
	for _, lane := range l.Lanes {
		for _, s := range lane.Spans {
			if n++; n <= most {
				fmt.Fprintf(&b, "%s, %s: %s until %s. ", shorten(plain(lane.Label), 400), shorten(plain(s.Label), 400), l.day(s.From), l.day(s.To))
			}
		}
	}
	if n > most {
		fmt.Fprintf(&b, "And %d more. ", n-most)
	}
	if l.Today != nil {
		fmt.Fprintf(&b, "Today: %s.", l.day(*l.Today))
	}
	return b.String()
}

// dayScale covers the days with ticks a round number of days apart: 1, 2, 5 times a power
// of ten, or weeks where there are dates.
func (l *Lanes) dayScale(from, to int, room float64) scale {
	steps := []int{1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000, 50_000, 100_000, 200_000, 500_000, 1_000_000}
	if !l.Start.IsZero() {
		steps = []int{1, 2, 7, 14, 28, 56, 112, 364, 728, 1820, 3640, 7280, 18_200, 36_400, 72_800, 182_000, 364_000, 728_000, 1_456_000}
	}
	var s scale
	for _, step := range steps {
		s.ticks = nil
		first := from / step
		if first*step > from {
			first--
		}
		if (to-from)/step > 40 {
			continue
		}
		for i := first; ; i++ {
			s.ticks = append(s.ticks, tick{float64(i * step), l.day(i * step)})
			if i*step >= to {
				break
			}
		}
		if (s.widest()+14)*float64(len(s.ticks)-1) <= room-s.widest() {
			break
		}
	}
	return s
}
