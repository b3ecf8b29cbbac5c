package program

import (
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/check"
	"brightset/model/internal/adapter"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
	"brightset/testdata/campaign"
)

// TestBruteSound: what the exhaustive search finds passes the check, and the
// random jobs are neither all feasible nor all infeasible.
func TestBruteSound(t *testing.T) {
	feasible, all := 0, 0
	for slots := 1; slots <= 5; slots++ {
		for seed := range int64(campaign.Cases(30, 40)) {
			st := jobs.Random(seed, slots, jobs.Options{})
			total, ok, plan := adapter.Cheapest(st)
			all++
			if !ok {
				continue
			}
			feasible++
			if int64(plan.Weighed()) != total {
				t.Errorf("seed %d, %d slots: total %d, but the plan holds %d", seed, slots, total, plan.Weighed())
			}
			for _, v := range check.Check(st, plan) {
				t.Errorf("seed %d, %d slots: %s", seed, slots, v)
			}
		}
	}
	if share := feasible * 100 / all; share < 30 || share > 90 {
		t.Errorf("%d of %d random jobs are feasible: too few or too many to test with", feasible, all)
	}
}

// TestBruteAgainstCheck: over every set of lines and trades of small jobs,
// without any pruning, the cheapest and the best that the check lets pass are
// those the search finds. The two state the rules separately.
func TestBruteAgainstCheck(t *testing.T) {
	for seed := range int64(campaign.Cases(24, 60)) {
		st := jobs.Random(1000+seed, 1+int(seed%2), jobs.Options{})
		all := &naive{st: st}
		all.extend(0, nil)
		total, ok, _ := adapter.Cheapest(st)
		if ok != all.has || ok && total != all.total {
			t.Errorf("seed %d: search %d %t, enumeration under the check %d %t", 1000+seed, total, ok, all.total,
				all.has)
		}
		grade, least, ok, _ := adapter.Best(st)
		if ok != all.has || ok && (grade != all.grade || least != all.atGrade) {
			t.Errorf("seed %d: best %d at %d, enumeration under the check %d at %d", 1000+seed, grade, least, all.grade,
				all.atGrade)
		}
	}
}

// naive enumerates plans and lets Check alone judge them.
type naive struct {
	st             *catalog.State
	has            bool
	total          int64
	grade, atGrade int64
}

func (n *naive) extend(s int, lines []*adapter.Line) {
	if s == len(n.st.Slots) {
		n.judge(lines)
		return
	}
	choices := adapter.Choices(n.st, s)
	for _, k := range choices {
		for _, f := range append([]*plan.Choice{nil}, choices...) {
			n.extend(s+1, append(lines[:s:s], &adapter.Line{K: k, F: f}))
		}
	}
}

func (n *naive) judge(lines []*adapter.Line) {
	grade := int64(0)
	for _, l := range lines {
		grade += int64(n.st.Slots[l.K.Slot].Weight) * int64(l.K.Grade)
	}
	for set := range 1 << len(n.st.Trades) {
		var trades []int
		for t := range n.st.Trades {
			if set>>t&1 == 1 {
				trades = append(trades, t)
			}
		}
		plan := adapter.Plan(n.st, lines, trades)
		total := int64(plan.Weighed())
		if n.has && total >= n.total && (grade < n.grade || grade == n.grade && total >= n.atGrade) {
			continue
		}
		if len(check.Check(n.st, plan)) > 0 {
			continue
		}
		if !n.has || total < n.total {
			n.total = total
		}
		if !n.has || grade > n.grade || grade == n.grade && total < n.atGrade {
			n.grade, n.atGrade = grade, total
		}
		n.has = true
	}
}

// TestBruteRulesMatter: each rule and cost decides some random job, and the
// check names the rule that a plan made without it breaks.
func TestBruteRulesMatter(t *testing.T) {
	for _, rule := range rulesOff {
		changed, tried := 0, 0
		for seed := range int64(40) {
			if changed > 0 && seed >= int64(campaign.Cases(16, 40)) {
				break
			}
			tried++
			slots := 2 + int(seed%3)
			with := jobs.Random(seed, slots, rule.options())
			without := jobs.Random(seed, slots, rule.options())
			rule.off(without)
			total, ok, _ := adapter.Cheapest(with)
			free, possible, plan := adapter.Cheapest(without)
			if ok != possible || total != free {
				changed++
			}
			if len(rule.named) == 0 || !possible || ok && total <= free {
				continue
			}
			if !slices.ContainsFunc(check.Check(with, plan),
				func(v check.Violation) bool { return slices.Contains(rule.named, v.Rule) }) {
				t.Errorf("seed %d: a plan without %q costs %d instead of %d, but the check doesn't name it", seed,
					rule.name, free, total)
			}
		}
		t.Logf("%-16s decides %d of %d jobs", rule.name, changed, tried)
		if changed == 0 {
			t.Errorf("%q changes no random job", rule.name)
		}
	}
}
