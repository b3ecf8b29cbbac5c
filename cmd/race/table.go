package main

import (
	"fmt"
	"io"
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

// figure is a time. Where it is a lower end only, because the solver had no
// answer to show for the median run, over is true.
type figure struct {
	value float64
	over  bool
}

func (f figure) String() string {
	text := "-"
	switch {
	case math.IsNaN(f.value):
		return text
	case f.value < 10:
		text = fmt.Sprintf("%.3f", f.value)
	default:
		text = fmt.Sprintf("%.1f", f.value)
	}
	if f.over {
		return ">" + text
	}
	return text
}

// leastSeconds is what a solver that reports hundredths is credited with at
// least, so that no ratio divides by nothing.
const leastSeconds = 0.005

// seconds is the median over the seeds of what of takes from a run; a
// disqualified run counts as the whole limit, or longer if it took longer.
func (r *familyResult) seconds(at int, of func(*outcome) float64) figure {
	var list []float64
	for _, runs := range r.runs {
		v := math.Max(of(runs[at]), leastSeconds)
		if runs[at].fault != "" {
			v = math.Inf(1)
		}
		list = append(list, v)
	}
	m := median(list)
	if math.IsInf(m, 1) {
		return figure{r.limit, true}
	}
	return figure{value: m}
}

// middle is the median of something that needs no answer.
func (r *familyResult) middle(at int, of func(*outcome) float64) float64 {
	var list []float64
	for _, runs := range r.runs {
		list = append(list, of(runs[at]))
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

func own(o *outcome) float64   { return o.own }
func whole(o *outcome) float64 { return o.whole }

// ratio is how many times as long the fastest of the others takes as brightset.
type ratio struct {
	factor      float64
	over, under bool // only a lower or an upper end of it is known
	other       string
}

func (q ratio) String() string {
	if q.other == "" || (q.over && q.under) {
		return "-"
	}
	text := fmt.Sprintf("%.1f", q.factor)
	if q.factor < 0.95 {
		text = fmt.Sprintf("%.2f", q.factor)
	}
	return map[bool]string{true: ">"}[q.over] + map[bool]string{true: "<"}[q.under] + text
}

// ratioOf compares medians; brightset is the first of the field.
func (r *familyResult) ratioOf(field []*entrant, of func(*outcome) float64) ratio {
	if field[0].name != "brightset" {
		return ratio{}
	}
	var q ratio
	best := figure{value: math.Inf(1), over: true}
	for i := 1; i < len(field); i++ {
		f := r.seconds(i, of)
		if f.value < best.value || (f.value == best.value && !f.over) {
			best, q.other = f, field[i].name
		}
	}
	mine := r.seconds(0, of)
	q.factor, q.over, q.under = best.value/mine.value, best.over, mine.over
	return q
}

// table is the race as rows of text, for both ways of printing it.
type table struct {
	rows   [][]string // family, lines, solver, own, whole, nodes, peak, good
	ratios [][]string // family, own, by, whole, by
	faults []string
	wrong  int
	agree  string
}

var (
	head      = []string{"family", "lines", "solver", "own s", "whole s", "nodes", "peak MB", "good"}
	ratioHead = []string{"family", "own s", "fastest other", "whole s", "fastest other"}
)

func tabulate(results []*familyResult, field []*entrant) *table {
	t := &table{}
	means := [2]geometric{}
	proved, agreed := 0, 0
	for _, r := range results {
		for i, e := range field {
			row := []string{"", "", e.name, r.seconds(i, own).String(), r.seconds(i, whole).String(),
				fmt.Sprintf("%.0f", r.middle(i, func(o *outcome) float64 { return float64(o.nodes) })),
				fmt.Sprintf("%.0f", r.middle(i, func(o *outcome) float64 { return float64(o.peakKB) / 1024 })),
				fmt.Sprintf("%d/%d", r.good(i), len(r.runs))}
			if i == 0 {
				row[0], row[1] = r.family.Name, fmt.Sprintf("%.0f", median(r.sizes))
			}
			t.rows = append(t.rows, row)
		}
		a, b := r.ratioOf(field, own), r.ratioOf(field, whole)
		means[0].add(a)
		means[1].add(b)
		t.ratios = append(t.ratios, []string{r.family.Name, a.String(), a.other, b.String(), b.other})
		for s, runs := range r.runs {
			t.faulty(r.family.Name, s+1, runs)
			if goodOf(runs)+wrongOf(runs) > 1 {
				proved++
				if wrongOf(runs) == 0 {
					agreed++
				}
			}
		}
	}
	t.ratios = append(t.ratios, []string{"geometric mean", means[0].String(), "", means[1].String(), ""})
	t.agree = fmt.Sprintf("%d of the %d jobs that two or more solvers proved have one optimum", agreed, proved)
	return t
}

func goodOf(runs []*outcome) (n int) {
	for _, o := range runs {
		if o.fault == "" {
			n++
		}
	}
	return n
}

func wrongOf(runs []*outcome) (n int) {
	for _, o := range runs {
		if strings.HasPrefix(o.fault, "wrong") {
			n++
		}
	}
	return n
}

func (t *table) faulty(family string, seed int, runs []*outcome) {
	t.wrong += wrongOf(runs)
	for _, o := range runs {
		if o.fault != "" {
			t.faults = append(t.faults, fmt.Sprintf("%s, seed %d: %s: %s", family, seed, o.solver, o.fault))
		}
	}
}

// geometric is a geometric mean of ratios. Where a ratio is known from one side
// only, so is the mean.
type geometric struct {
	logs        float64
	n           int
	over, under bool
}

func (g *geometric) add(q ratio) {
	if q.String() == "-" {
		return
	}
	g.logs += math.Log(q.factor)
	g.n++
	g.over, g.under = g.over || q.over, g.under || q.under
}

func (g *geometric) String() string {
	if g.n == 0 {
		return "-"
	}
	return ratio{factor: math.Exp(g.logs / float64(g.n)), over: g.over, under: g.under, other: "all"}.String()
}

// notes say how to read the tables.
var notes = []string{
	"own s: seconds the solver itself takes, median over the seeds; whole s: the whole process.",
	"brightset's whole process makes the job and the program too; the others' reads the finished program.",
	"lines: columns to choose from; peak MB: of the whole process; good: proven and right, of all runs.",
	"Second table: how many times as long as brightset the fastest other solver takes.",
	">: at least, since a run without a right and proven answer within the limit counts as the limit.",
}

func (t *table) write(out io.Writer) {
	writeAligned(out, head, t.rows)
	fmt.Fprintln(out)
	writeAligned(out, ratioHead, t.ratios)
	fmt.Fprintf(out, "\n%s.\n", t.agree)
	for _, f := range t.faults {
		fmt.Fprintln(out, "disqualified: "+f)
	}
	fmt.Fprintln(out)
	for _, n := range notes {
		fmt.Fprintln(out, n)
	}
}
