package chart

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

func TestBars(t *testing.T) {
	sums := []int64{1000_00, 250_00, -500_00, 0}
	b := Bars{Currency: "USD", Total: "in all"}
	for i, v := range sums {
		b.Bars = append(b.Bars, Bar{fmt.Sprint("part ", i), v})
	}
	d := b.Draw()
	want := "[what USD] [[part 0 1000.00] [part 1 250.00] [part 2 -500.00] [part 3 0.00] [in all 750.00]]"
	if got := fmt.Sprint(d.Table.Heads, d.Table.Rows); got != want {
		t.Error(got)
	}
	all := checked(t, d)
	bars := named(all, "rect")[1:] // after the paper
	zero := named(all, "line")[0].num(t, "x1")
	if len(bars) != 3 {
		t.Fatal(len(bars))
	}
	whole := bars[0].num(t, "width")
	for i, bar := range bars {
		x, w := bar.num(t, "x"), bar.num(t, "width")
		if d := w/whole - math.Abs(float64(sums[i]))/1000_00; math.Abs(d) > 0.002 {
			t.Errorf("bar %d is %v of %v long", i, w, whole)
		}
		off := sums[i] < 0
		if off != (bar.at["fill"] == paper) || !off && math.Abs(x-zero) > 0.2 || off && math.Abs(x+w-zero) > 0.2 {
			t.Errorf("bar %d at %v, nothing at %v: %v", i, x, zero, bar.at)
		}
	}
	if hatches := named(all, "path"); len(hatches) != 1 {
		t.Error("what is taken off is not hatched")
	} else {
		for _, s := range segments(t, hatches) {
			if math.Abs((s[2]-s[0])-(s[1]-s[3])) > 0.2 || s[0] > s[2] {
				t.Error("a hatch that does not slant:", s)
				break
			}
		}
	}
	for _, text := range []string{"1000.00", "250.00", "-500.00", "0.00", "750.00", "part 3", "in all"} {
		if says(all, text) == nil {
			t.Errorf("no %q", text)
		}
	}
	plain := Bars{Bars: []Bar{{"x", 1}}}.Draw()
	if len(plain.Table.Rows) != 1 || plain.Table.Heads[1] != "sum" {
		t.Error(plain.Table)
	}
}

func TestMoney(t *testing.T) {
	for v, want := range map[int64][2]string{
		0: {"0.00", "0.00"}, 5: {"0.05", "0.05"}, -5: {"-0.05", "-0.05"}, -1400: {"-14.00", "-14.00"},
		123456: {"1234.56", "1234.56"}, 1234567: {"12345.67", "12 345.67"}, -123456789: {"-1234567.89", "-1 234 567.89"},
		math.MaxInt64: {"92233720368547758.07", "92 233 720 368 547 758.07"},
		math.MinInt64: {"-92233720368547758.08", "-92 233 720 368 547 758.08"},
	} {
		if got := Money(v); got != want[0] {
			t.Errorf("%d: %s", v, got)
		}
		if got := strings.ReplaceAll(money(v), "\u202f", " "); got != want[1] {
			t.Errorf("%d: %s", v, got)
		}
	}
	for _, c := range []struct {
		all  []int64
		want int64
	}{{nil, 0}, {[]int64{1, -3}, -2}, {[]int64{math.MaxInt64, 1}, math.MaxInt64},
		{[]int64{math.MinInt64, -1}, math.MinInt64}} {
		if got := sumOf(c.all); got != c.want {
			t.Errorf("%v: %d", c.all, got)
		}
	}
}

func TestScales(t *testing.T) {
	labels := func(s scale) string {
		var out []string
		for _, k := range s.ticks {
			out = append(out, strings.ReplaceAll(k.label, "\u202f", "_"))
		}
		return strings.TrimSpace(strings.Join(out, " ") + " " + s.unit)
	}
	for _, c := range []struct {
		low, high int64
		want      string
	}{
		{0, 100_00, "0 20 40 60 80 100"}, {1378_00, 2200_00, "1200 1400 1600 1800 2000 2200"}, {5, 5, "0.04 0.05 0.06"},
		{0, 0, "-0.01 0.00 0.01"}, {0, 250, "0.00 0.50 1.00 1.50 2.00 2.50"},
		{-130_00, 1240_00, "-500 0 500 1000 1500"}, {2000_00, 2000_00, "1800 1900 2000 2100 2200"},
		{0, 45_000_00, "0 10_000 20_000 30_000 40_000 50_000"},
		{1_000_000_00, 5_000_000_00, "1000 2000 3000 4000 5000 thousand"},
		{1, 1 << 53, "0 20_000_000 40_000_000 60_000_000 80_000_000 100_000_000 million"},
	} {
		if got := labels(moneyScale(c.low, c.high, 5)); got != c.want {
			t.Errorf("%d to %d: %s, want %s", c.low, c.high, got, c.want)
		}
	}
	for _, c := range []struct {
		low, high float64
		want      string
	}{
		{0, 100, "0 20 40 60 80 100"}, {85.7, 94.5, "84 86 88 90 92 94 96"}, {90, 90, "89.0 89.5 90.0 90.5 91.0"},
		{0.5, 0.7, "0.50 0.55 0.60 0.65 0.70"}, {-3, 2, "-3 -2 -1 0 1 2"}, {80.1, 84, "80 81 82 83 84"},
	} {
		if got := labels(numberScale(c.low, c.high, 5)); got != c.want {
			t.Errorf("%v to %v: %s, want %s", c.low, c.high, got, c.want)
		}
	}
	r := rand.New(rand.NewPCG(1, 5))
	for range 5000 {
		a, b := someSum(r), someSum(r)
		s := moneyScale(min(a, b), max(a, b), 5)
		n, low, high := len(s.ticks), float64(min(a, b)), float64(max(a, b))
		if n < 2 || n > 8 || s.ticks[0].at > math.Max(low, -float64(farthest)) ||
			s.ticks[n-1].at < math.Min(high, float64(farthest)) {
			t.Fatalf("%d to %d: %s", a, b, labels(s))
		}
	}
}

func TestPlain(t *testing.T) {
	for in, want := range map[string]string{
		" a \n b\t": "a b", "\x00a\x7f\u0085b": "a b", "\u202ea\u2066b\u200f": "ab", "\xff": "\uFFFD",
		"a" + strings.Repeat("\u0301", 9): "a\u0301\u0301\u0301", "\uFFFE\U0002FFFFx\u00ad\u200b": "x",
		"👩‍👩": "👩‍👩",
	} {
		if got := plain(in); got != want {
			t.Errorf("%q: %q, want %q", in, got, want)
		}
	}
	for in, want := range map[string]string{
		"":      "chart",
		"a b":   "a-b",
		"7":     "chart7",
		"x_1-Y": "x_1-Y",
		`"><x`:  "chart---x",
		"ä":     "chart-",
	} {
		if got := ident(in); got != want {
			t.Errorf("%q: %q, want %q", in, got, want)
		}
	}
	if isolated("שלום") != "\u2068שלום\u2069" || isolated("plain é 日") != "plain é 日" {
		t.Error("isolated")
	}
}

func TestShorten(t *testing.T) {
	for _, text := range append(hostile, "plain", long) {
		text = plain(text)
		for room := 0.0; room < 300; room += 7 {
			short := shorten(text, room)
			if wide(short) > room || short != text && short != "" && !strings.HasSuffix(short, "…") {
				t.Errorf("%q in %v: %q", text, room, short)
			}
			if wide(text) <= room && short != text {
				t.Errorf("%q was cut though there is room", text)
			}
		}
	}
}

// TestContrast reckons as the Web Content Accessibility Guidelines 2.1 define it (from
// memory): letters 4.5 to 1 on white, shapes 3 to 1 or with an edge of ink.
func TestContrast(t *testing.T) {
	light := func(hex string) float64 {
		var rgb [3]int
		fmt.Sscanf(hex, "#%02x%02x%02x", &rgb[0], &rgb[1], &rgb[2])
		sum := 0.0
		for i, v := range rgb {
			c := float64(v) / 255
			if c <= 0.03928 {
				c /= 12.92
			} else {
				c = math.Pow((c+0.055)/1.055, 2.4)
			}
			sum += c * []float64{0.2126, 0.7152, 0.0722}[i]
		}
		return sum
	}
	contrast := func(a, b string) float64 {
		x, y := light(a), light(b)
		return (math.Max(x, y) + 0.05) / (math.Min(x, y) + 0.05)
	}
	if c := contrast("#000000", "#ffffff"); math.Abs(c-21) > 0.01 {
		t.Fatal(c)
	}
	if contrast(ink, paper) < 4.5 || contrast(ink, faint) < 4.5 || contrast(blue, paper) < 3 {
		t.Error(contrast(ink, paper), contrast(ink, faint), contrast(blue, paper))
	}
}
