// Package adapter puts what the oracle finds in the terms of package plan, so that tests
// compare it with what the program says. It decides nothing.
package adapter

import (
	"brightset/catalog"
	"brightset/model/internal/oracle"
	"brightset/model/plan"
	"brightset/solver"
)

// Search is a search of the oracle's for whole sets of lines that refuse lets pass.
type Search struct {
	st     *catalog.State
	Refuse func([]*Line) bool // nil: all count

	Has   bool
	Total catalog.Cents
}

// NewSearch prepares the search of a state.
func NewSearch(st *catalog.State) *Search { return &Search{st: st} }

// Run tries all sets of lines.
func (b *Search) Run() {
	s := oracle.NewSearch(b.st)
	if b.Refuse != nil {
		s.Refuse = func(lines []*oracle.Line) bool { return b.Refuse(inOurTerms(lines)) }
	}
	s.Run()
	b.Has, b.Total = s.Has, s.Total
}

func inOurTerms(lines []*oracle.Line) (out []*Line) {
	for _, l := range lines {
		out = append(out, &Line{fromOracle(l.K), fromOracle(l.F), l.Cost})
	}
	return out
}

// Cheapest gives the least total of a state, less what is kept, whether any plan meets the
// rules, and a cheapest plan. For jobs of up to six slots.
func Cheapest(st *catalog.State) (best int64, feasible bool, plan *plan.Plan) {
	s := oracle.NewSearch(st).Run()
	if !s.Has {
		return 0, false, nil
	}
	return int64(s.Total), true, FromOracle(st, s.Reader, s.Lines, s.Trades)
}

// Best gives the highest sum of weight x grade (ten-thousandths) within
// the rules and the least total at that.
func Best(st *catalog.State) (grade, total int64, feasible bool, plan *plan.Plan) {
	s := oracle.NewSearch(st)
	s.Best = true
	if s.Run(); !s.Has {
		return 0, 0, false, nil
	}
	return s.Finish, int64(s.Total), true, FromOracle(st, s.Reader, s.Lines, s.Trades)
}

// FromOracle writes lines and trades of the oracle's as a plan.
func FromOracle(st *catalog.State, read *oracle.Reader, lines []*oracle.Line, trades []int) *plan.Plan {
	p := &plan.Plan{Of: st, Status: solver.Optimal, Has: true, Completion: oracle.Completion(lines)}
	for _, c := range read.Charges(lines, trades, nil) {
		p.Charges = append(p.Charges, plan.Charge{Kind: plan.ChargeKind(c.Kind), Of: c.Of, Cents: c.Cents})
		p.Expected += c.Cents
		p.Outlay += c.Cents
	}
	finish, weight, plain := int64(0), int64(0), int64(0)
	for _, l := range lines {
		p.Lines = append(p.Lines, plan.Line{Slot: l.K.Slot, Choice: fromOracle(l.K), Fallback: fromOracle(l.F),
			Expected: l.Cost, Keeps: l.Keeps})
		p.Keeps += l.Keeps
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
