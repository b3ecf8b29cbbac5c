package chart

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"unicode/utf8"

	"brightset/testdata/campaign"
)

// bytesOf is a label of whatever bytes, whole characters and pieces of them.
func bytesOf(r *rand.Rand) string {
	bits := append([]string{"\xff", "a\x80b", "\xe2\x80", "\xc3", "é", "  ", "W", "漢", "/", "\xf0\x9f", "\xed\xa0\x80",
		"\xc0\xaf"}, hostile...)
	label := ""
	for range r.IntN(5) {
		if label += bits[r.IntN(len(bits))]; r.IntN(4) == 0 {
			label += string([]byte{byte(r.IntN(256)), byte(r.IntN(256))})
		}
	}
	return unshortened(label)
}

// unshortened is a label without the sign that stands for what was cut off. Taken out of
// bytes that are no text it could be put together again.
func unshortened(label string) string {
	for strings.Contains(label, "…") {
		label = strings.ReplaceAll(label, "…", "")
	}
	return label
}

// TestAnyLabels draws crowded charts with labels of any bytes and sums of any size: every
// drawing is UTF-8, and no label lies over another.
func TestAnyLabels(t *testing.T) {
	for seed := range uint64(campaign.Cases(60, 20_000)) {
		r := rand.New(rand.NewPCG(750+seed, 2)) // 762: the name of the limit over that of a flag
		a, b, x := someInt(r), someInt(r), []float64{0, math.NaN(), 91, 1e300, r.Float64() * 100, math.Inf(1)}[r.IntN(6)]
		day := 300 + r.IntN(900)
		if r.IntN(2) == 0 {
			day = int(someInt(r))
		}
		frame := Frame{ID: bytesOf(r), Title: bytesOf(r), Note: bytesOf(r), Width: day}
		fr, do, ba := someFrontier(r), someDots(r), someBars(r)
		fr.Frame, fr.Up, fr.Across, fr.Currency, fr.Beyond = frame, bytesOf(r), bytesOf(r), bytesOf(r), bytesOf(r)
		fr.Points = append(fr.Points, Point{X: x, Cents: a}, Point{X: -x, Cents: b})
		fr.Flags = append(fr.Flags, Flag{Point{X: x, Cents: a}, bytesOf(r), true})
		do.Frame, do.Sums, do.Lines = frame, append(do.Sums, a, b), append(do.Lines, Line{bytesOf(r), b})
		ba.Frame, ba.Total, ba.Bars = frame, bytesOf(r), append(ba.Bars, Bar{bytesOf(r), a}, Bar{bytesOf(r), b})
		for name, d := range map[string]Drawing{"frontier": fr.Draw(), "dots": do.Draw(), "bars": ba.Draw()} {
			checked(t, d)
			if !utf8.ValidString(d.SVG) {
				t.Error("the drawing is not UTF-8")
			}
			if t.Failed() {
				t.Fatalf("%s, seed %d", name, seed)
			}
		}
	}
}

func someInt(r *rand.Rand) int64 {
	return []int64{0, 1, -1, math.MaxInt64, math.MinInt64, r.Int64(), -r.Int64(), r.Int64N(1000), r.Int64N(1e7)}[r.IntN(9)]
}

// TestNamesInTheirBoxes: a name is written within the box that was found for it, a unit
// off its edge. The limit's once reached a unit beyond, over the name beside it.
func TestNamesInTheirBoxes(t *testing.T) {
	limits := 0
	for seed := range uint64(campaign.Cases(120, 5_000)) {
		r := rand.New(rand.NewPCG(seed, 9))
		f := someFrontier(r)
		f.Limit = &Line{"target " + strings.Repeat("x", r.IntN(12)), r.Int64N(20_000_00)}
		d := &frontier{Frontier: f, points: sound(f.Points), flags: groups(f.Flags)}
		if len(d.points)+len(d.flags) == 0 {
			continue
		}
		d.axes()
		d.place(false)
		for _, n := range d.names {
			if n.x == d.frame.x1 {
				limits++
			}
			for _, line := range n.lines {
				if w := wide(strings.Trim(line, "\u2068\u2069")); !n.number && w > n.x1-n.x0-2+1e-9 {
					t.Fatalf("seed %d: %q takes %.1f of a box of %.1f", seed, line, w, n.x1-n.x0)
				}
			}
		}
	}
	if limits == 0 {
		t.Error("no limit was drawn")
	}
}
