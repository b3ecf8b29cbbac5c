package chart

import "math"

// Heights of the rows, in units.
const (
	laneHead = 26.0
	spanRow  = 36.0
	spanBar  = 10.0
)

func (l *Lanes) draw() string {
	from, to := farthestDay, -farthestDay
	height := 8.0
	for _, lane := range l.Lanes {
		if len(lane.Spans) > 0 {
			height += laneHead + spanRow*float64(len(lane.Spans))
		}
		for _, s := range lane.Spans {
			from, to = min(from, s.From), max(to, s.To+1) // the last day ends where the next begins
		}
	}
	top := 4.0
	today := l.today()
	if today != nil {
		from, to = min(from, *today), max(to, *today)
		top += rowGap
	}
	axis := l.dayScale(from, to, l.width()-8)
	half := math.Max(8, axis.widest()/2+2)
	axis.from, axis.to = half, l.width()-half
	base := top + height
	s := begin(&l.Frame, base+30, l.describe())
	if today != nil {
		l.drawToday(s, axis.place(float64(*today)), *today)
	}
	y := top
	for _, lane := range l.Lanes {
		if len(lane.Spans) == 0 {
			continue
		}
		s.bold(4, y+20, start, lane.Label, s.width-8)
		y += laneHead
		for _, span := range lane.Spans {
			l.drawSpan(s, &axis, span, y, today)
			y += spanRow
		}
	}
	s.line(4, base, s.width-4, base, ink, 1.2, "")
	axis.draw(s, base)
	return s.end()
}

// today is the day within what can be drawn.
func (l *Lanes) today() *int {
	if l.Today == nil {
		return nil
	}
	return new(max(-farthestDay, min(farthestDay, *l.Today)))
}

// drawToday names the line of today, which is drawn across the bars alone: names are not
// to be struck through.
func (l *Lanes) drawToday(s *svg, x float64, day int) {
	text := "today, " + l.day(day)
	half := wide(text)/2 + 2
	s.text(math.Max(half, math.Min(s.width-half, x)), 16, middle, text, s.width)
	s.shape(ink, ink, x-5, 20, x+5, 20, x, 27)
}

// drawSpan draws one span: its name, its end, and its bar under them.
func (l *Lanes) drawSpan(s *svg, axis *scale, span Span, y float64, today *int) {
	until := "until " + l.day(span.To)
	s.text(s.width-4, y+15, end, until, math.Inf(1))
	s.text(4, y+15, start, span.Label, s.width-8-16-wide(until))
	bar := box{axis.place(float64(span.From)), y + 21, axis.place(float64(span.To + 1)), y + 21 + spanBar}
	bar.x1 = math.Max(bar.x1, bar.x0+2)
	for _, t := range axis.ticks {
		x := axis.place(t.at)
		s.line(x, bar.y0-2, x, bar.y1+2, faint, 1, "")
	}
	if today == nil {
		s.rect(bar, blue, blue, "")
		return
	}
	now := axis.place(float64(*today))
	s.rect(bar, paper, blue, "")
	if done := (box{bar.x0, bar.y0, math.Min(bar.x1, now), bar.y1}); done.x1 > done.x0 {
		s.rect(done, blue, blue, "")
	}
	s.line(now, bar.y0-3, now, bar.y1+3, ink, 2, "4 2")
}
