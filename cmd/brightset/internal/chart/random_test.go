package chart

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

var hostile = []string{
	"<script>alert(1)</script>", `" onload="x`, "&amp;&#x0;]]>", "\u202egnitsed\u2066", strings.Repeat("long name ", 30),
	strings.Repeat("W", 300), "\x00\x1b[31m\u0085\u2028", "日本語のラベル", "", " ", "a\nb\tc", "\xff\xfe", "שלום 12 עולם",
	"ﷺ﷽", "😀👩‍👩‍👧", "a" + strings.Repeat("\u0301", 60), "\uFFFE\U0001FFFF", "\u00ad\u200b", "> x",
}

// someSum is any sum, often one that is asked for trouble.
func someSum(r *rand.Rand) int64 {
	switch r.IntN(8) {
	case 0:
		return []int64{0, 1, -1, math.MaxInt64, math.MinInt64, 1 << 53, 5_00}[r.IntN(7)]
	case 1:
		return int64(r.Uint64())
	}
	return r.Int64N(int64(math.Pow10(1+r.IntN(9)))) - r.Int64N(100)
}

func someLabel(r *rand.Rand) string {
	switch r.IntN(3) {
	case 0:
		return hostile[r.IntN(len(hostile))]
	case 1:
		return strings.Repeat("word ", r.IntN(12))
	}
	return fmt.Sprintf("target %d", r.IntN(100))
}

func someFrame(r *rand.Rand) Frame {
	return Frame{
		ID:    someLabel(r),
		Title: someLabel(r),
		Note:  someLabel(r),
		Width: []int{0, 320, 340, 640, 1600, -5, 1 << 40}[r.IntN(7)],
	}
}

func someLine(r *rand.Rand, near int64) Line {
	if r.IntN(2) == 0 {
		return Line{someLabel(r), near}
	}
	return Line{someLabel(r), someSum(r)}
}

// someFrontier rises as a real one does, or is any heap of points.
func someFrontier(r *rand.Rand) Frontier {
	f := Frontier{
		Frame:    someFrame(r),
		Across:   someLabel(r),
		Up:       someLabel(r),
		Currency: someLabel(r),
		Beyond:   someLabel(r),
	}
	x, c, wild := 100*r.Float64(), r.Int64N(1_000_000), r.IntN(4) == 0
	for range 1 + r.IntN(149) {
		x, c = x+r.ExpFloat64(), c+r.Int64N(200_00)
		p := Point{X: x, Cents: c, Beyond: r.IntN(9) == 0}
		if wild {
			p = Point{X: []float64{r.NormFloat64(), 1e300 * r.NormFloat64(), 90, math.NaN()}[r.IntN(4)], Cents: someSum(r)}
		}
		f.Points = append(f.Points, p)
		if r.IntN(10) == 0 {
			f.Flags = append(f.Flags, Flag{p, someLabel(r), r.IntN(5) == 0})
		}
	}
	if r.IntN(2) == 0 {
		f.Limit = new(someLine(r, c))
	}
	return f
}

func someDots(r *rand.Rand) Dots {
	d := Dots{Frame: someFrame(r), Across: someLabel(r), Currency: someLabel(r)}
	mean, wild := r.Int64N(1_000_000)+1, r.IntN(4) == 0
	for range 1 + r.IntN([]int{20, 20, 300}[r.IntN(3)]) {
		v := int64(float64(mean) * math.Exp(r.NormFloat64()/4))
		if wild {
			v = someSum(r)
		}
		d.Sums = append(d.Sums, v)
	}
	if r.IntN(2) == 0 {
		d.Limit = new(someLine(r, d.Sums[0]))
	}
	for range r.IntN(4) {
		d.Lines = append(d.Lines, someLine(r, mean))
	}
	return d
}

func someBars(r *rand.Rand) Bars {
	b := Bars{Frame: someFrame(r), Currency: someLabel(r), Total: someLabel(r)}
	for range 1 + r.IntN(30) {
		b.Bars = append(b.Bars, Bar{someLabel(r), someSum(r)})
	}
	return b
}

// TestRandom draws whatever may come: no text over another or outside, no number that is
// none, nothing that a strict policy refuses; and no name on a point or a line.
func TestRandom(t *testing.T) {
	for seed := range uint64(200) {
		r := rand.New(rand.NewPCG(seed, 1))
		for name, d := range map[string]func() Drawing{
			"frontier": someFrontier(r).Draw, "dots": someDots(r).Draw, "bars": someBars(r).Draw,
		} {
			all := checked(t, d())
			if name == "frontier" {
				uncovered(t, all)
			}
			if t.Failed() {
				t.Fatalf("%s, seed %d", name, seed)
			}
		}
	}
}

// TestHostile puts every hostile text into every place.
func TestHostile(t *testing.T) {
	for _, h := range hostile {
		f := Frame{ID: h, Title: h, Note: h}
		for name, d := range map[string]Drawing{
			"frontier": Frontier{
				Frame: f, Across: h, Up: h, Currency: h, Beyond: h,
				Points: []Point{{X: 1, Cents: 5, Beyond: true}, {X: 2, Cents: 7}},
				Flags:  []Flag{{Point{X: 1, Cents: 5}, h, true}, {Point{X: 1.5, Cents: 7}, h, false}}, Limit: &Line{h, 6},
			}.Draw(),
			"dots": Dots{
				Frame:    f,
				Across:   h,
				Currency: h,
				Sums:     []int64{1, 2, 3},
				Limit:    &Line{h, 2},
				Lines:    []Line{{h, 3}},
			}.Draw(),
			"bars": Bars{Frame: f, Currency: h, Total: h, Bars: []Bar{{h, 100}, {h, -5}, {h, 0}}}.Draw(),
		} {
			checked(t, d)
			for _, bad := range []string{"<script", `" onload`, "\x1b", "\u202e", "\x00"} {
				if strings.Contains(d.SVG, bad) {
					t.Errorf("%s of %q holds %q", name, h, bad)
				}
			}
		}
		if t.Failed() {
			t.Fatalf("with %q", h)
		}
	}
}

func FuzzDraw(f *testing.F) {
	for i, h := range hostile {
		f.Add(h, int64(i), int64(-i), float64(i), 3*i, uint64(i))
	}
	f.Add("x", int64(math.MaxInt64), int64(math.MinInt64), math.NaN(), math.MaxInt, uint64(7))
	f.Fuzz(func(t *testing.T, label string, a, b int64, x float64, day int, seed uint64) {
		label = unshortened(label)
		r := rand.New(rand.NewPCG(seed, 2))
		frame := Frame{ID: label, Title: label, Note: label, Width: day}
		fr := someFrontier(r)
		fr.Frame, fr.Up = frame, label
		fr.Points = append(fr.Points, Point{X: x, Cents: a}, Point{X: -x, Cents: b})
		fr.Flags = append(fr.Flags, Flag{Point{X: x, Cents: a}, label, true})
		checked(t, fr.Draw())
		do := someDots(r)
		do.Frame, do.Sums, do.Lines = frame, append(do.Sums, a, b), append(do.Lines, Line{label, b})
		checked(t, do.Draw())
		ba := someBars(r)
		ba.Frame, ba.Bars = frame, append(ba.Bars, Bar{label, a}, Bar{label, b})
		checked(t, ba.Draw())
	})
}
