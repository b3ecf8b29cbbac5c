package main

import (
	"strings"
	"testing"
)

// tinyMPS: pick a (5) or b (3); b needs y (4), which is charged at least 2 more
// unless topped up by t; at most one of b and c.
const tinyMPS = `NAME tiny FREE
ROWS
 N total
 E g
 L l
 L m
 G n
COLUMNS
 M1 'MARKER' 'INTORG'
 a total 5
 a g 1
 a n 1
 b total 3
 b g 1
 b l 1
 y total 4
 y l -1
 y m 2
 M2 'MARKER' 'INTEND'
 t total 1
 t m -1
RHS
 RHS g 1
BOUNDS
 UP BND a 1
 UP BND b 1
 UP BND y 1
ENDATA
`

func tiny(t *testing.T) *matrix {
	t.Helper()
	m, err := readMPS(strings.NewReader(tinyMPS))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func TestReadMPSRefuses(t *testing.T) {
	for was, is := range map[string]string{" a g 1": " a nowhere 1", " RHS g 1": " RHS g one",
		" UP BND a 1": " LO BND a 1", " a total 5": " a total 5.5"} {
		_, err := readMPS(strings.NewReader(strings.Replace(tinyMPS, was, is, 1)))
		if err == nil || !strings.Contains(err.Error(), strings.TrimSpace(is)) {
			t.Errorf("%q instead of %q: %v", is, was, err)
		}
	}
}

func TestEvaluate(t *testing.T) {
	for _, c := range []struct {
		values map[string]float64
		total  int64
		broken string
	}{
		{map[string]float64{"a": 1}, 5, ""},
		{map[string]float64{"b": 1, "y": 1, "t": 2}, 9, ""},
		{map[string]float64{"a": 0.99999999, "b": 1e-9}, 5, ""},
		{map[string]float64{"b": 1}, 3, "row l is broken by 1"},
		{map[string]float64{"b": 1, "y": 1}, 7, "row m is broken by 2"},
		{nil, 0, "row g is broken by 1"},
		{map[string]float64{"a": 0.6, "b": 0.4}, 0, "column a is 0.6"},
		{map[string]float64{"a": 2}, 0, "column a is 2"},
		{map[string]float64{"a": 1, "z": 1}, 5, "it names columns that aren't there"},
	} {
		total, broken := tiny(t).evaluate(c.values)
		if broken != c.broken || (broken == "" && total != c.total) {
			t.Errorf("%v: %d %q, want %d %q", c.values, total, broken, c.total, c.broken)
		}
	}
}

func TestJudge(t *testing.T) {
	cheap, dear := map[string]float64{"a": 1}, map[string]float64{"b": 1, "y": 1, "t": 2}
	for name, c := range map[string]struct {
		first outcome // "one"; the other, "two", has proven 0.05
		want  string
	}{
		"right": {outcome{state: proven, claim: 5, values: cheap}, ""},
		"dearer": {outcome{state: proven, claim: 9, values: dear},
			"wrong: calls 0.09 optimal, but 0.05 of two is feasible"},
		"miscounted": {outcome{state: proven, claim: 4, values: cheap},
			"wrong: says 0.04, but its answer adds up to 0.05"},
		"broken": {outcome{state: proven, claim: 3, values: map[string]float64{"b": 1}},
			"wrong: row l is broken by 1"},
		"infeasible": {outcome{state: infeasible}, "wrong: says infeasible, but 0.05 of two is feasible"},
		"no values":  {outcome{state: proven, claim: 5}, "no answer: it calls the job proven, but gives none"},
		"stopped":    {outcome{state: stopped, claim: 9, values: dear}, "no proof within the limit"},
		"crashed":    {outcome{state: stopped, failure: "exit status 1"}, "no answer: exit status 1"},
	} {
		one, two := c.first, outcome{solver: "two", state: proven, claim: 5, values: cheap}
		one.solver = "one"
		judge(tiny(t), []*outcome{&one, &two})
		if one.fault != c.want || two.fault != "" {
			t.Errorf("%s: %q and %q, want %q", name, one.fault, two.fault, c.want)
		}
	}
}

// A proof that came after the limit is none.
func TestLate(t *testing.T) {
	for _, c := range []struct {
		own  float64
		want state
	}{{19, proven}, {21.9, proven}, {22.1, stopped}} {
		o := outcome{state: proven, own: c.own}
		if o.late(20); o.state != c.want {
			t.Errorf("%g seconds of 20: %s, want %s", c.own, o.state, c.want)
		}
	}
}
