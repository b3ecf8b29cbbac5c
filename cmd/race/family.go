package main

import (
	"fmt"
	"math"
	"strings"

	"brightset/model/seeded"
)

// familyResult gathers the runs of one family: per seed, in the order of the field.
type familyResult struct {
	family seeded.Family
	limit  float64
	sizes  []float64
	runs   [][]*outcome
}

func (r *familyResult) add(size int, runs []*outcome) {
	r.sizes = append(r.sizes, float64(size))
	r.runs = append(r.runs, runs)
}

// leastSeconds is what a solver that reports hundredths is credited with at
// least, so that no ratio divides by nothing.
const leastSeconds = 0.005

// seconds is the median over the seeds of what of takes from a run. A disqualified
// run is the last in the order and counts as the limit, or as the longest good run
// if that took longer: where it has a part in the median, this is a lower end.
func (r *familyResult) seconds(at int, of func(*outcome) float64) figure {
	var list []float64
	longest := r.limit
	for _, runs := range r.runs {
		if runs[at].fault == "" {
			v := max(of(runs[at]), leastSeconds)
			list, longest = append(list, v), max(longest, v)
		}
	}
	good, all := len(list), len(r.runs)
	for len(list) < all {
		list = append(list, longest)
	}
	return figure{median(list), all/2 >= good}
}

// measures are what one solver took: seconds, nodes, memory, and how many it proved.
func (r *familyResult) measures(at int) []string {
	return []string{r.seconds(at, own).String(), r.seconds(at, whole).String(),
		rounded(r.middle(at, func(o *outcome) float64 { return float64(o.nodes) })), rounded(r.peak(at)),
		fmt.Sprintf("%d/%d", r.good(at), len(r.runs))}
}

// peak is the most memory it held, in MB.
func (r *familyResult) peak(at int) float64 {
	return r.middle(at, func(o *outcome) float64 { return float64(o.peakKB) / 1024 })
}

// rounded is a figure without a part; "-" where there is none.
func rounded(v float64) string {
	if v < 0 {
		return "-"
	}
	return fmt.Sprintf("%.0f", v)
}

// middle is the median of something that needs no proof; below 0 where nothing is known of it. Runs
// that were ended from outside, or failed, say nothing of it.
func (r *familyResult) middle(at int, of func(*outcome) float64) float64 {
	var list []float64
	for _, runs := range r.runs {
		if runs[at].failure == "" {
			list = append(list, of(runs[at]))
		}
	}
	if len(list) == 0 {
		return -1
	}
	return median(list)
}

func (r *familyResult) good(at int) int {
	n := 0
	for _, runs := range r.runs {
		if runs[at].fault == "" {
			n++
		}
	}
	return n
}

// anyGood says whether one of the others had a right and proven answer.
func (r *familyResult) anyGood(field []*entrant) bool {
	for i := range field {
		if others(field[i]) && r.good(i) > 0 {
			return true
		}
	}
	return false
}

func own(o *outcome) float64   { return o.own }
func whole(o *outcome) float64 { return o.whole }

// others says whether somebody else wrote it.
func others(e *entrant) bool { return e.name != "brightset" && e.name != "without-c" }

// ratioOf compares medians; brightset is the first of the field.
func (r *familyResult) ratioOf(field []*entrant, of func(*outcome) float64) ratio {
	if field[0].name != "brightset" {
		return ratio{}
	}
	var q ratio
	best := figure{value: math.Inf(1), over: true}
	for i := 1; i < len(field); i++ {
		if !others(field[i]) {
			continue
		}
		f := r.seconds(i, of)
		if f.value < best.value || (f.value == best.value && !f.over) {
			best, q.other = f, field[i].name
		}
	}
	if math.IsInf(best.value, 1) { // nobody else takes part
		return ratio{}
	}
	if best.over && !r.anyGood(field) {
		q.other = "none in time"
	}
	mine := r.seconds(0, of)
	q.factor, q.over, q.under = best.value/mine.value, best.over, mine.over
	return q
}

// faults says who is disqualified, and for what, in one line for all seeds where
// it is the same.
func (r *familyResult) faults(at int) []string {
	var order []string
	seeds := map[string][]string{}
	for s, runs := range r.runs {
		f := runs[at].fault
		if f == "" {
			continue
		}
		if seeds[f] == nil {
			order = append(order, f)
		}
		seeds[f] = append(seeds[f], fmt.Sprint(s+1))
	}
	for i, f := range order {
		order[i] = fmt.Sprintf("%s %s, %s: %s", r.family.Name, strings.Join(seeds[f], " "), r.runs[0][at].solver, f)
	}
	return order
}
