package chart

import (
	"math"
	"strconv"
	"strings"
)

// tick is a round value on an axis.
type tick struct {
	at    float64
	label string
}

// scale is an axis: its ticks from the first to the last, and where they lie.
type scale struct {
	ticks    []tick
	from, to float64 // where the first and the last lie in the drawing
	unit     string  // what sums are counted in, where it is not one: "thousand"
}

// place is where a value lies in the drawing, never outside the axis.
func (s *scale) place(v float64) float64 {
	low, high := s.ticks[0].at, s.ticks[len(s.ticks)-1].at
	share := 0.5
	if high > low {
		share = math.Max(0, math.Min(1, (v-low)/(high-low)))
	}
	return s.from + share*(s.to-s.from)
}

// widest is how wide the widest label is.
func (s *scale) widest() float64 {
	w := 0.0
	for _, t := range s.ticks {
		w = math.Max(w, wide(t.label))
	}
	return w
}

// farthest a value may lie from nothing, so that differences and steps stay integers.
const farthest = int64(1) << 60

// moneyScale covers low to high with at most so many steps of 1, 2 or 5 times a power of
// ten.
func moneyScale(low, high int64, most int) scale {
	low, high = max(low, -farthest), min(high, farthest)
	low, high = min(low, farthest), max(high, -farthest)
	if low == high { // one value: show what a tenth more or less would be
		around := max(1, low/10, -low/10)
		low, high = low-around, high+around
	}
	step := int64(1)
	for n := 1; (high-low)/step > int64(most) || (high-low)/step == int64(most) && (high-low)%step > 0; n++ {
		step = [3]int64{1, 2, 5}[n%3] * power10(n/3)
	}
	first, last := low/step, high/step
	if first*step > low {
		first--
	}
	if last*step < high {
		last++
	}
	unit := unitFor(first, last, step)
	s := scale{unit: unit.name}
	for i := first; i <= last; i++ {
		s.ticks = append(s.ticks, tick{float64(i * step), unit.label(i*step, step)})
	}
	return s
}

func power10(n int) int64 {
	p := int64(1)
	for range n {
		p *= 10
	}
	return p
}

// moneyUnit is what the sums of an axis are counted in.
type moneyUnit struct {
	name   string
	places int // of cents behind the point
}

var moneyUnits = []moneyUnit{{"", 2}, {"thousand", 5}, {"million", 8}}

// unitFor is the smallest unit in which the labels are short, else the one in which they
// are shortest.
func unitFor(first, last, step int64) moneyUnit {
	const short = 80
	best, least := moneyUnit{}, math.Inf(1)
	for _, u := range moneyUnits {
		w := math.Max(wide(u.label(first*step, step)), wide(u.label(last*step, step)))
		if w <= short {
			return u
		}
		if w < least {
			best, least = u, w
		}
	}
	return best
}

// label writes a sum with as many places as multiples of step need.
func (u moneyUnit) label(v, step int64) string {
	drop := 0
	for drop < u.places && step%10 == 0 {
		step /= 10
		v /= 10
		drop++
	}
	places := u.places - drop
	if u.places == 2 && places == 1 { // cents go in pairs
		places, v = 2, v*10
	}
	return grouped(decimal(v, places))
}

// numberScale covers low to high as moneyScale does.
func numberScale(low, high float64, most int) scale {
	if high-low < 1e-3 {
		low, high = low-1, high+1
	}
	// In steps of 10^power times 1, 2 or 5; the hair keeps 86 from being 85.9999.
	const hair = 1e-9
	power := int(math.Floor(math.Log10((high - low) / float64(most))))
	step := 0.0
	for _, m := range []float64{1, 2, 5, 10} {
		if step = m * math.Pow10(power); (high-low)/step <= float64(most)+hair {
			break
		}
	}
	places := max(0, -int(math.Floor(math.Log10(step)+hair)))
	var s scale
	for i := math.Floor(low/step + hair); ; i++ {
		s.ticks = append(s.ticks, tick{i * step, strconv.FormatFloat(i*step+0, 'f', places, 64)})
		if i >= high/step-hair {
			return s
		}
	}
}

// axisName is what the sums of an axis are, and what they are counted in.
func axisName(what, currency, unit string, room float64) (text, whole string) {
	in := strings.TrimSpace(unit + " " + plain(currency))
	if in == "" {
		text, whole, _ = labelled(what, "", room)
		return text, whole
	}
	_, whole, _ = labelled(what, ", "+in, room)
	text, _, _ = labelled(what, ", "+shorten(in, room/2), room)
	return text, whole
}

// draw marks the ticks of an axis across, along y, and writes their labels where they
// stand apart.
func (s *scale) draw(d *svg, y float64) {
	free := 0.0
	for _, t := range s.ticks {
		x, half := s.place(t.at), wide(t.label)/2
		d.line(x, y, x, y+5, ink, 1.2, "")
		at := math.Max(half+2, math.Min(d.width-half-2, x))
		if at-half >= free {
			d.text(at, y+22, middle, t.label, math.Inf(1))
			free = at + half + 8
		}
	}
}
