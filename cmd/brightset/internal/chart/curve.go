package chart

import (
	"fmt"
	"math"
)

// Point is a point of a curve: grade 0 to 100 and cents.
type Point struct {
	Grade float64
	Cents int64
}

// Flag marks a point of a curve by name.
type Flag struct {
	Point
	Label string
	Ours  bool // the one advised
}

// Curve draws cost against grade: what each point more costs. Flags are named beside the
// curve where there is room, and by a number under it where there is none.
func Curve(id, title, currency string, points []Point, flags []Flag) string {
	const left, right, top, height = 78.0, 24.0, 16.0, 300.0
	var gs, cs []float64
	for _, p := range points {
		gs, cs = append(gs, p.Grade), append(cs, float64(p.Cents))
	}
	for _, f := range flags {
		gs, cs = append(gs, f.Grade), append(cs, float64(f.Cents))
	}
	gx, cy := ticks(least(gs), most(gs), 8), ticks(least(cs), most(cs), 6)
	x := func(g float64) float64 { return left + share(g, gx)*(Width-left-right) }
	y := func(c float64) float64 { return top + height - share(c, cy)*height }
	s := &svg{}
	p := &placer{top: top, bottom: top + height - 6, left: left + 4, right: Width - 4}
	labels := p.place(flags, x, y, points)
	legend := 0
	for _, l := range labels {
		if l.number > 0 {
			legend++
		}
	}
	desc := fmt.Sprintf("%d points from grade %.1f for %s to grade %.1f for %s %s", len(points), points[0].Grade, Money(points[0].Cents), points[len(points)-1].Grade, Money(points[len(points)-1].Cents), currency)
	for _, f := range flags {
		desc += fmt.Sprintf("; %s: grade %.1f for %s", f.Label, f.Grade, Money(f.Cents))
	}
	s.head(id, title, desc, top+height+48+22*float64(legend))
	for _, c := range cy {
		s.line(left, y(c), Width-right, y(c), faint, 1, "")
		s.text(left-8, y(c)+5, "end", round(int64(c)))
	}
	for _, g := range gx {
		s.line(x(g), top+height, x(g), top+height+5, ink, 1.2, "")
		s.text(x(g), top+height+21, "middle", fmt.Sprintf("%.4g", g))
	}
	s.line(left, top, left, top+height, ink, 1.2, "")
	s.line(left, top+height, Width-right, top+height, ink, 1.2, "")
	s.text((left+Width-right)/2, top+height+40, "middle", "mean grade of the set; cost in "+currency)
	for i := 1; i < len(points); i++ { // a better set costs what the next point does
		a, b := points[i-1], points[i]
		s.line(x(a.Grade), y(float64(a.Cents)), x(a.Grade), y(float64(b.Cents)), blue, 1, "3 3")
		s.line(x(a.Grade), y(float64(b.Cents)), x(b.Grade), y(float64(b.Cents)), blue, 2, "")
	}
	for _, q := range points {
		s.circle(x(q.Grade), y(float64(q.Cents)), 4, blue, blue)
	}
	for i, f := range flags {
		fx, fy := x(f.Grade), y(float64(f.Cents))
		if f.Ours {
			s.rect(fx-7, fy-7, 14, 14, orange, ink)
		} else {
			s.circle(fx, fy, 7, "#ffffff", ink)
		}
		l := labels[i]
		s.text(l.x, l.y, l.anchor, l.text)
	}
	row := 0
	for _, l := range labels {
		if l.number > 0 {
			s.text(left, top+height+62+22*float64(row), "start", short(fmt.Sprintf("%d: %s", l.number, l.full), Width-left-10))
			row++
		}
	}
	return s.end()
}

func least(v []float64) float64 {
	out := math.Inf(1)
	for _, x := range v {
		out = math.Min(out, x)
	}
	return out
}

func most(v []float64) float64 {
	out := math.Inf(-1)
	for _, x := range v {
		out = math.Max(out, x)
	}
	return out
}

// share is where a value lies between the ends of an axis.
func share(v float64, axis []float64) float64 {
	from, to := axis[0], axis[len(axis)-1]
	if to <= from {
		return 0.5
	}
	return (v - from) / (to - from)
}

// placed is a label and where it stands.
type placed struct {
	x, y         float64
	anchor, text string
	full         string
	number       int // of the legend; 0 where the label itself stands there
}

// placer finds room for labels.
type placer struct {
	top, bottom, left, right float64
	taken                    [][4]float64 // x, y, x, y
}

func (p *placer) free(b [4]float64) bool {
	if b[0] < p.left || b[2] > p.right || b[1] < p.top-14 || b[3] > p.bottom {
		return false
	}
	for _, t := range p.taken {
		if b[0] < t[2] && t[0] < b[2] && b[1] < t[3] && t[1] < b[3] {
			return false
		}
	}
	return true
}

// place tries eight places around each flag; where none is free the flag gets a number.
func (p *placer) place(flags []Flag, x, y func(float64) float64, points []Point) []placed {
	for _, q := range points {
		px, py := x(q.Grade), y(float64(q.Cents))
		p.taken = append(p.taken, [4]float64{px - 4, py - 4, px + 4, py + 4})
	}
	for _, f := range flags {
		px, py := x(f.Grade), y(float64(f.Cents))
		p.taken = append(p.taken, [4]float64{px - 7, py - 7, px + 7, py + 7})
	}
	var out []placed
	n := 0
	for _, f := range flags {
		full := f.Label + " " + Money(f.Cents)
		l, ok := p.around(x(f.Grade), y(float64(f.Cents)), short(full, 250))
		if !ok {
			n++
			if l, ok = p.around(x(f.Grade), y(float64(f.Cents)), fmt.Sprint(n)); !ok {
				l.text = "" // only in the legend
			}
			l.number = n
		}
		l.full = full
		out = append(out, l)
	}
	return out
}

func (p *placer) around(px, py float64, text string) (placed, bool) {
	w := wide(text)
	for _, c := range []struct {
		dx, dy float64
		anchor string
	}{{-11, -4, "end"}, {-11, -12, "end"}, {11, 16, "start"}, {11, 5, "start"}, {-11, 5, "end"}, {0, -13, "middle"}, {0, 24, "middle"}, {11, -8, "start"}, {-30, -30, "end"}, {30, 36, "start"}} {
		l := placed{x: px + c.dx, y: py + c.dy, anchor: c.anchor, text: text}
		x0 := l.x
		switch c.anchor {
		case "end":
			x0 -= w
		case "middle":
			x0 -= w / 2
		}
		b := [4]float64{x0, l.y - textSize + 2, x0 + w, l.y + 3}
		if p.free(b) {
			p.taken = append(p.taken, b)
			return l, true
		}
	}
	return placed{x: px, y: py, anchor: "middle"}, false
}
