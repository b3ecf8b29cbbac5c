package jobs

import (
	"math"
	"math/rand/v2"

	"brightset/catalog"
	"brightset/model/internal/oracle"
)

// OnTheEdge draws limits from a cheapest plan that does without them: some it meets exactly,
// some it misses by the smallest step there is.
func OnTheEdge(r *rand.Rand, st *catalog.State) {
	s := oracle.NewSearch(st).Run()
	if !s.Has {
		return
	}
	step := func() int { return r.IntN(2) }
	some := func() bool { return Chance(r, 35) }
	for m := range st.Matches {
		edgeOfMatch(&st.Matches[m], s.Lines, step)
	}
	weight, days, risk, cash, keeps := int64(0), 0, int64(0), catalog.Cents(0), catalog.Cents(0)
	for _, l := range s.Lines {
		weight += int64(st.Slots[l.K.Slot].Weight)
		days, risk, cash = max(days, edgeOfDays(st, l)), risk+l.Risk, cash+l.K.Cash
		keeps += l.Keeps
	}
	if some() && weight > 0 {
		st.Job.Target.Mean = Set(catalog.Centi(s.Finish/weight + int64(step())))
	}
	if some() {
		st.Job.WithinDays = Set(days - step())
	}
	if some() {
		edgeOfCompletion(r, st, risk)
	}
	if st.Job.Budget.Set || some() {
		for _, c := range s.Charges(s.Lines, s.Trades, nil) {
			cash += c.Cents
		}
		st.Job.Budget = Set(cash - catalog.Cents(step()))
		switch st.Job.BudgetOn {
		case catalog.OnExpected:
			st.Job.Budget.V = s.Total + keeps - catalog.Cents(step())
		case catalog.OnQuote:
			st.Job.Budget.V = s.OwnerPays(s.Lines, s.Trades, nil) - st.Job.SpentSum - catalog.Cents(step())
		}
	}
	if l := s.Lines[r.IntN(len(s.Lines))]; some() {
		st.Slots[l.K.Slot].MaxBreakage = Set(max(0, l.K.Breakage-catalog.Micro(step())))
	}
	if l := s.Lines[r.IntN(len(s.Lines))]; some() {
		st.Slots[l.K.Slot].Target.Floor = Set(l.K.Grade + catalog.Centi(step()))
	}
}

// edgeOfMatch sets the tolerances of a match to what the pieces of a plan are apart.
func edgeOfMatch(m *catalog.Match, lines []*oracle.Line, step func() int) {
	grade, tone := catalog.Centi(0), catalog.Centi(0)
	for _, a := range m.Slots {
		for _, b := range m.Slots {
			grade = max(grade, lines[a].K.Grade-lines[b].K.Grade)
			tone = max(tone, lines[a].K.Tone-lines[b].K.Tone)
		}
	}
	m.GradeWithin.V = max(0, grade-catalog.Centi(step()))
	m.ToneWithin.V = max(0, tone-catalog.Centi(step()))
}

// edgeOfDays is when a line is settled at worst.
func edgeOfDays(st *catalog.State, l *oracle.Line) int {
	days := l.K.Days
	switch {
	case l.K.Fails == 0:
	case l.F == nil:
		days += st.Slots[l.K.Slot].RescueDays.V
	default:
		days += l.F.Days
	}
	if days > 0 {
		days += st.Job.Elapsed
	}
	return days
}

// edgeOfCompletion asks for about as much completion as takes up the whole row.
func edgeOfCompletion(r *rand.Rand, st *catalog.State, risk int64) {
	asked := catalog.Micro(math.Exp(-float64(risk-int64(len(st.Slots)))/1e6)*1e6) + Between[catalog.Micro](r, -1, 2)
	st.Job.Completion = Set(min(catalog.One, max(1, asked)))
}
