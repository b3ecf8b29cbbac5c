package main

import (
	"fmt"
	"io"
	"strings"
)

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
			row := append([]string{"", "", e.name}, r.measures(i)...)
			if i == 0 {
				row[0], row[1] = r.family.Name, fmt.Sprintf("%.0f", median(r.sizes))
			}
			t.rows = append(t.rows, row)
			t.faults = append(t.faults, r.faults(i)...)
		}
		a, b := r.ratioOf(field, own), r.ratioOf(field, whole)
		means[0].add(a)
		means[1].add(b)
		t.ratios = append(t.ratios, []string{r.family.Name, a.String(), a.other, b.String(), b.other})
		for _, runs := range r.runs {
			t.wrong += wrongOf(runs)
			if goodOf(runs)+wrongOf(runs) > 1 {
				proved++
				if wrongOf(runs) == 0 {
					agreed++
				}
			}
		}
	}
	t.ratios = append(t.ratios, []string{fmt.Sprintf("geometric mean of %d", means[0].n), means[0].String(), "",
		means[1].String(), ""})
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

const disqualified = "Disqualified (family and seeds, solver, why):"

// notes say how to read the tables.
var notes = []string{
	"own s: seconds the solver itself takes, median over the seeds; whole s: the whole process.",
	"brightset's whole process makes the job and the program; the others' reads the finished program.",
	"lines: columns to choose from; peak MB: of the whole process; good: proven and right, of all runs.",
	"Second table: how many times as long as brightset the fastest other solver takes.",
	">: at least, since a run without a right and proven answer within the limit counts as the limit.",
	"-: neither side had one for the median run; such a family is not in the mean.",
}

func (t *table) write(out io.Writer) {
	writeAligned(out, head, t.rows)
	fmt.Fprintln(out)
	writeAligned(out, ratioHead, t.ratios)
	fmt.Fprintf(out, "\n%s.\n", t.agree)
	if len(t.faults) > 0 {
		fmt.Fprintln(out, "\n"+disqualified)
	}
	for _, f := range t.faults {
		fmt.Fprintln(out, "  "+f)
	}
	fmt.Fprintln(out)
	for _, n := range notes {
		fmt.Fprintln(out, n)
	}
}
