package check

import (
	"fmt"

	"brightset/catalog"
	"brightset/model/plan"
)

// Violation is one way in which a plan is not what it claims to be.
type Violation struct {
	Rule    string // a short stable word, such as "floor" or "match-grade"
	Where   string // the slot, group, plater ... concerned; "plan" for the whole
	Message string // what is wrong, with both figures
}

// String gives the violation on one line.
func (v Violation) String() string { return v.Rule + ": " + v.Where + ": " + v.Message }

// Check adds every cost and every rule of a plan up again from the compiled
// state and tells what doesn't hold. It shares no code with what makes the
// choices and the integer program, so that a fault there can't hide itself. A
// sound plan, or one that claims to hold no lines, gives none. A damaged plan
// gives violations and never a panic.
func Check(st *catalog.State, p *plan.Plan) []Violation {
	j := &audit{st: st, plan: p}
	if st == nil || p == nil {
		j.report("plan", "plan", "there is no plan")
		return j.found
	}
	if other := otherNames(st, p.Of); other != "" {
		j.report("state", "plan", "is a plan of another state: %s", other)
		return j.found
	}
	if !p.Has {
		if p.Status == plan.Optimal {
			j.report("status", "plan", "is called optimal but holds no lines")
		}
		return j.found
	}
	if p.Status == plan.Infeasible {
		j.report("status", "plan", "is called infeasible but holds lines")
	}
	j.readLines()
	j.readSharing()
	for _, l := range j.lines {
		j.checkLine(l)
	}
	j.checkPieces()
	j.checkMean()
	j.checkMatches()
	j.checkSharing()
	j.checkCompletion()
	j.checkTrades()
	j.checkSums()
	return j.found
}

// otherNames says what a plan's numbers would mean otherwise in its own state than in the
// one judged; "" where they mean the same. Figures and rules may differ: they are judged.
func otherNames(st, of *catalog.State) string {
	if of == nil {
		return "it does not say of which"
	}
	for _, list := range []struct {
		what  string
		a, b  int
		named func(st *catalog.State, i int) string
	}{
		{"slot", len(st.Slots), len(of.Slots), func(st *catalog.State, i int) string { return st.Slots[i].ID }},
		{"piece", len(st.Pieces), len(of.Pieces), func(st *catalog.State, i int) string { return st.Pieces[i].Key() }},
		{"plater", len(st.Platers), len(of.Platers), func(st *catalog.State, i int) string { return st.Platers[i].ID }},
		{"vendor", len(st.Vendors), len(of.Vendors), func(st *catalog.State, i int) string { return st.Vendors[i].ID }},
		{"bundle", len(st.Bundles), len(of.Bundles), func(st *catalog.State, i int) string { return st.Bundles[i].ID }},
		{"trade", len(st.Trades), len(of.Trades), func(st *catalog.State, i int) string { return st.Trades[i].ID }},
	} {
		if list.a != list.b {
			return fmt.Sprintf("%ss: %d there, %d here", list.what, list.b, list.a)
		}
		for i := range list.a {
			if here, there := list.named(st, i), list.named(of, i); here != there {
				return fmt.Sprintf("%s number %d is %q there, %q here", list.what, i, there, here)
			}
		}
	}
	return ""
}

// audit is one check under way.
type audit struct {
	st    *catalog.State
	plan  *plan.Plan
	lines []auditedLine
	found []Violation
}

// auditedLine is one line of the plan with both choices derived again.
type auditedLine struct {
	slot  int
	k, f  *plan.Choice // f is nil where there is no fallback
	given *plan.Line
	with  *auditedLine // the line it shares its fallback with, nil where it does not
}

func (j *audit) report(rule, where, format string, args ...any) {
	j.found = append(j.found, Violation{rule, where, fmt.Sprintf(format, args...)})
}

// readLines takes the lines that can be understood and names those that can't.
func (j *audit) readLines() {
	seen := make([]bool, len(j.st.Slots))
	for i := range j.plan.Lines {
		given := &j.plan.Lines[i]
		if given.Slot < 0 || given.Slot >= len(j.st.Slots) {
			j.report("slot", fmt.Sprintf("line %d", i+1), "there is no slot number %d", given.Slot)
			continue
		}
		where := j.slotName(given.Slot)
		if seen[given.Slot] {
			j.report("line-twice", where, "has more than one line")
			continue
		}
		seen[given.Slot] = true
		if given.Choice == nil {
			j.report("choice", where, "its line has no choice")
			continue
		}
		line := auditedLine{slot: given.Slot, given: given}
		line.k = j.deriveAgain(given.Slot, given.Choice, where)
		if given.Fallback != nil {
			line.f = j.deriveAgain(given.Slot, given.Fallback, where+", fallback")
		}
		if line.k != nil && (line.f != nil) == (given.Fallback != nil) {
			j.lines = append(j.lines, line)
		}
	}
	for s, ok := range seen {
		if !ok {
			j.report("line-missing", j.slotName(s), "has no line")
		}
	}
}

// deriveAgain gives the choice as the state makes it, after comparing every
// figure; nil, and a violation, where the state knows no such choice.
func (j *audit) deriveAgain(slot int, c *plan.Choice, where string) *plan.Choice {
	if c.Slot != slot {
		j.report("choice-slot", where, "holds a choice made for slot number %d", c.Slot)
		return nil
	}
	again, rule, why := Derive(j.st, c)
	if again == nil {
		j.report(rule, where, "%s", why)
		return nil
	}
	j.compareFigures(c, again, where)
	return again
}

func (j *audit) slotName(s int) string { return fmt.Sprintf("slot %q", j.st.Slots[s].ID) }

// money prints cents as an amount, for messages only.
func money(c catalog.Cents) string {
	sign := ""
	if c < 0 {
		sign, c = "-", -c
	}
	return fmt.Sprintf("%s%d.%02d", sign, c/100, c%100)
}

// hundredths prints a grade or a tone, for messages only.
func hundredths(c catalog.Centi) string { return money(catalog.Cents(c)) }
