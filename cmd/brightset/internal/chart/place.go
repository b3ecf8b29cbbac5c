package chart

import (
	"math"
	"slices"
)

// box is a part of the drawing, y downward.
type box struct{ x0, y0, x1, y1 float64 }

func (a box) meets(b box) bool {
	return a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1
}

func (a box) within(b box) bool {
	return a.x0 >= b.x0 && a.x1 <= b.x1 && a.y0 >= b.y0 && a.y1 <= b.y1
}

// set is what a text in the box may cover once its place is written to a tenth.
func (a box) set() box { return box{a.x0, a.y0 - 0.1, a.x1, a.y1 + 0.1} }

// nearest is the point of the box nearest to another.
func (a box) nearest(x, y float64) (float64, float64) {
	return math.Max(a.x0, math.Min(a.x1, x)), math.Max(a.y0, math.Min(a.y1, y))
}

// disc is a round part of the drawing.
type disc struct{ x, y, r float64 }

func (d disc) meets(b box) bool {
	x, y := b.nearest(d.x, d.y)
	return math.Hypot(x-d.x, y-d.y) < d.r
}

// placer finds room for labels.
type placer struct {
	frame box    // labels stay inside
	taken []box  // and off these, as do the lines that lead to them
	discs []disc // likewise
	drawn []box  // and off these, which a line may cross
}

func (p *placer) take(b ...box)  { p.taken = append(p.taken, b...) }
func (p *placer) avoid(b ...box) { p.drawn = append(p.drawn, b...) }

func (p *placer) dot(d ...disc) { p.discs = append(p.discs, d...) }

// blocked says whether something is in the way that a line may not cross.
func (p *placer) blocked(b box) bool {
	return slices.ContainsFunc(p.taken, b.meets) || slices.ContainsFunc(p.discs, func(d disc) bool { return d.meets(b) })
}

func (p *placer) free(b box) bool {
	return b.within(p.frame) && !p.blocked(b) && !slices.ContainsFunc(p.drawn, b.meets)
}

// The ways from a point to its label, the best first: a curve that rises to the right
// leaves room above to the left and below to the right.
var ways = [...][2]float64{{-1, -1}, {-1, 0}, {0, -1}, {1, 1}, {1, 0}, {0, 1}, {1, -1}, {-1, 1}, {-0.5, -1}, {0.5, 1},
	{0.5, -1}, {-0.5, 1}, {-1, -0.5}, {1, 0.5}, {1, -0.5}, {-1, 0.5}, {-0.2, -1}, {0.2, 1}, {0.2, -1}, {-0.2, 1}}

// leash is how far a label may stand from the edge of what it names without a line to it.
const leash = 10.0

// longLeash is how far it may stand with a line to it.
const longLeash = 140.0

// spot is a free place for a label of a size around a point that is marked with a radius.
// It tries near ones first; farther off, a line has to lead there, which must be free as
// well: then led is true.
// A ring is round: the line leads to its middle, and ends at its edge.
func (p *placer) spot(x, y, radius, w, h, far float64, ring bool) (b box, led, ok bool) {
	for d := 4.0; d <= far; d += 12 {
		for _, way := range ways {
			b := reach(x, y, radius+d, w, h, way)
			if !p.free(b) {
				continue
			}
			if d <= leash {
				p.take(b.set())
				return b, false, true
			}
			line := leader(x, y, radius, b, ring)
			if p.clear(line) {
				p.take(b.set())
				p.take(line...)
				return b, true, true
			}
		}
	}
	return box{}, false, false
}

// reach is a box of a size whose nearest edge lies at a distance from a point.
func reach(x, y, d, w, h float64, way [2]float64) box {
	cx, cy := x+way[0]*(d+w/2), y+way[1]*(d+h/2)
	if way[0] != 0 && way[1] != 0 { // past a corner: closer along both
		cx, cy = x+way[0]*(0.8*d+w/2), y+way[1]*(0.8*d+h/2)
	}
	return box{cx - w/2, cy - h/2, cx + w/2, cy + h/2}
}

// target is where a line to a label ends, and how much of it the label hides.
func (b box) target(x, y float64, ring bool) (tx, ty, hidden float64) {
	if ring {
		return (b.x0 + b.x1) / 2, (b.y0 + b.y1) / 2, (b.x1 - b.x0) / 2
	}
	tx, ty = b.nearest(x, y)
	return tx, ty, 0
}

// leader is the line from the edge of a marked point to a label, as small boxes.
func leader(x, y, radius float64, b box, ring bool) []box {
	tx, ty, hidden := b.target(x, y, ring)
	length := math.Hypot(tx-x, ty-y)
	var line []box
	const step = 3.0
	for d := radius + 3; d < length-hidden-3; d += step {
		cx, cy := x+(tx-x)*d/length, y+(ty-y)*d/length
		line = append(line, box{cx - 1, cy - 1, cx + 1, cy + 1})
	}
	return line
}

// clear says whether a line runs into nothing that is taken, and crosses what is drawn
// rather than running along it.
func (p *placer) clear(line []box) bool {
	const across = 3
	along := 0
	for _, b := range line {
		if p.blocked(b) {
			return false
		}
		if slices.ContainsFunc(p.drawn, b.meets) {
			if along++; along > across {
				return false
			}
		} else {
			along = 0
		}
	}
	return true
}
