package model

import (
	"brightset/catalog"
	"brightset/model/internal/oracle"
	"brightset/solver"
)

// brute is a search of the oracle's for whole sets of lines that refuse lets pass.
type brute struct {
	st     *catalog.State
	refuse func([]*bruteLine) bool // nil: all count

	has   bool
	total catalog.Cents
}

func newBrute(st *catalog.State) *brute { return &brute{st: st} }

// search tries all sets of lines.
func (b *brute) search(int) {
	s := oracle.NewSearch(b.st)
	if b.refuse != nil {
		s.Refuse = func(lines []*oracle.Line) bool { return b.refuse(inOurTerms(lines)) }
	}
	s.Run()
	b.has, b.total = s.Has, s.Total
}

func inOurTerms(lines []*oracle.Line) (out []*bruteLine) {
	for _, l := range lines {
		out = append(out, &bruteLine{fromOracle(l.K), fromOracle(l.F), l.Cost})
	}
	return out
}

// bruteForce gives the least total of a state, whether any plan meets the
// rules, and a cheapest plan. For jobs of up to six slots.
func bruteForce(st *catalog.State) (best int64, feasible bool, plan *Plan) {
	s := oracle.NewSearch(st).Run()
	if !s.Has {
		return 0, false, nil
	}
	return int64(s.Total), true, oraclePlan(st, s.Reader, s.Lines, s.Trades)
}

// bruteBest gives the highest sum of weight x grade (ten-thousandths) within
// the rules and the least total at that.
func bruteBest(st *catalog.State) (grade, total int64, feasible bool, plan *Plan) {
	s := oracle.NewSearch(st)
	s.Best = true
	if s.Run(); !s.Has {
		return 0, 0, false, nil
	}
	return s.Finish, int64(s.Total), true, oraclePlan(st, s.Reader, s.Lines, s.Trades)
}

// oraclePlan writes lines and trades of the oracle's as a plan.
func oraclePlan(st *catalog.State, read *oracle.Reader, lines []*oracle.Line, trades []int) *Plan {
	p := &Plan{Status: solver.Optimal, Has: true, Completion: oracle.Completion(lines)}
	for _, c := range read.Charges(lines, trades) {
		p.Charges = append(p.Charges, Charge{ChargeKind(c.Kind), c.Of, c.Cents})
		p.Expected += c.Cents
		p.Outlay += c.Cents
	}
	finish, weight, plain := int64(0), int64(0), int64(0)
	for _, l := range lines {
		p.Lines = append(p.Lines, Line{Slot: l.K.Slot, Choice: fromOracle(l.K), Fallback: fromOracle(l.F), Expected: l.Cost})
		p.Expected += l.Cost
		p.Outlay += l.K.Cash
		finish, weight, plain = finish+l.Finish, weight+int64(st.Slots[l.K.Slot].Weight), plain+int64(l.K.Grade)
	}
	if weight == 0 { // all weights nothing: the plain mean
		finish, weight = plain, int64(max(1, len(lines)))
	}
	p.Grade = float64(finish) / float64(weight) / 100
	p.Bound = p.Expected
	return p
}
