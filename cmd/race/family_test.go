package main

import "testing"

// runsOf makes a result of one or more solvers: seconds per seed, negative for a
// run without a right and proven answer.
func runsOf(limit float64, solvers ...[]float64) *familyResult {
	r := &familyResult{limit: limit}
	for seed := range solvers[0] {
		var runs []*outcome
		for _, list := range solvers {
			o := &outcome{own: max(list[seed], -list[seed])}
			if list[seed] < 0 {
				o.fault = "no proof within the limit"
			}
			runs = append(runs, o)
		}
		r.add(1, runs)
	}
	return r
}

func TestSeconds(t *testing.T) {
	for _, c := range []struct {
		list []float64
		want string
	}{
		{[]float64{3, 1, 2}, "2.000"},
		{[]float64{1, 2, 3, 4}, "2.500"},
		{[]float64{3, -20, 1}, "3.000"},
		{[]float64{3, -20, -20}, ">20.0"},
		{[]float64{4, -20}, ">12.0"},           // at least the mean of 4 and 20
		{[]float64{-3}, ">20.0"},               // wrong after 3 seconds is not fast
		{[]float64{20.5, -2, -2}, ">20.5"},     // a good one may be a little late
		{[]float64{0, 0.001}, "0.005"},         // hundredths at best
		{[]float64{1, 2, 3, -20, -1}, "3.000"}, // the order of the others is kept
	} {
		if got := runsOf(20, c.list).seconds(0, own).String(); got != c.want {
			t.Errorf("%v: %s, want %s", c.list, got, c.want)
		}
	}
}

func TestRatio(t *testing.T) {
	field := []*entrant{entrantNamed("brightset"), entrantNamed("cbc"), entrantNamed("highs")}
	var mean geometric
	for _, c := range []struct {
		mine, second, third float64
		want, other         string
	}{
		{2, 10, 8, "4.0", "highs"},
		{2, 1, 8, "0.50", "cbc"},
		{2, -20, -20, ">10.0", "none in time"},
		{-20, 4, 5, "<0.20", "cbc"},
		{-20, -20, -20, "-", "none in time"},
	} {
		q := runsOf(20, []float64{c.mine}, []float64{c.second}, []float64{c.third}).ratioOf(field, own)
		if q.String() != c.want || q.other != c.other {
			t.Errorf("%v: %s by %s", c, q, q.other)
		}
		mean.add(q)
	}
	// (4 x 0.5 x 10 x 0.2) ^ 1/4 is 1.41; known from neither side.
	if mean.n != 4 || !mean.over || !mean.under || mean.String() != "-" {
		t.Errorf("mean %v: %s", mean, mean.String())
	}
	field[1] = entrantNamed("without-c")
	q := runsOf(20, []float64{2}, []float64{1}, []float64{8}).ratioOf(field, own)
	if q.String() != "4.0" || q.other != "highs" {
		t.Errorf("against its own self: %s by %s", q, q.other)
	}
	if q := runsOf(20, []float64{2}, []float64{1}).ratioOf(field[:2], own); q.String() != "-" {
		t.Errorf("with nobody else: %s", q)
	}
	mean = geometric{}
	mean.add(ratio{factor: 4, other: "cbc"})
	mean.add(ratio{factor: 9, other: "cbc", over: true})
	if mean.String() != ">6.0" {
		t.Errorf("mean of 4 and >9: %s", mean.String())
	}
}

func TestFaults(t *testing.T) {
	r := runsOf(20, []float64{1, -20, 3, -20})
	r.family.Name = "car"
	r.runs[0][0].solver = "cbc"
	if got := r.faults(0); len(got) != 1 || got[0] != "car 2 4, cbc: no proof within the limit" {
		t.Errorf("%q", got)
	}
}
