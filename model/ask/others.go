package ask

import (
	"context"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// OtherKind says why a plan stands beside the advised one.
type OtherKind string

const (
	OtherNear     OtherKind = "near-best"     // among the cheapest that are filled otherwise
	OtherLeast    OtherKind = "do-least"      // keep all that passes
	OtherFinest   OtherKind = "best-finish"   // the best finish within the budget
	OtherUnlocked OtherKind = "without-locks" // the advised one, were no slot locked
)

// Other is a plan to weigh against the advised one.
type Other struct {
	Kind   OtherKind
	Plan   *plan.Plan // nil: not looked at; without Has: there is none, or none was found in time
	Differ int        // slots filled otherwise than in the advised plan, see alike
	Level  bool       // filled otherwise, and no further off in total than the estimates may err
}

// Others gives the n cheapest further plans, each filling at least differ slots
// otherwise than the advised plan and than each other; and then do-least, the best
// finish, and with locks the plan without them.
//
// For every plan x found already there is a row more:
//
//	sum over slots s of [k of s is alike in x] <= slots - differ
//
// Where there are fewer than n such plans the list ends with one that has no lines.
// The advised plan is what Solve gave. Plans that time doesn't suffice for are nil.
func Others(ctx context.Context, st *catalog.State, advised *plan.Plan, n, differ int, set solver.Settings) ([]Other, error) {
	c := newClock(ctx, set)
	all, err := nearPlans(c, st, advised, n, differ)
	if err != nil {
		return nil, err
	}
	named := []Other{{Kind: OtherLeast}, {Kind: OtherFinest}, {Kind: OtherUnlocked}}
	if len(st.Locks) == 0 {
		named = named[:2]
	}
	finders := []func(*clock, *catalog.State) (*plan.Plan, error){leastPlan, finestPlan, unlockedPlan}
	for _, i := range []int{0, 2, 1} { // the hardest last
		if i >= len(named) {
			continue
		}
		if named[i].Plan, err = finders[i](c, st); err != nil {
			return nil, err
		}
	}
	all = append(all, named...)
	for i := range all {
		all[i].compare(st, advised)
	}
	return all, nil
}

// nearPlans finds the near-best plans one after the other.
func nearPlans(c *clock, st *catalog.State, advised *plan.Plan, n, differ int) ([]Other, error) {
	p := program.CompileWithin(c.ctx, st, program.Options{FixedLimits: true, Keep: allSlots(st)})
	if p.GaveUp {
		return []Other{{Kind: OtherNear}}, nil
	}
	found := []*plan.Plan{advised}
	var all []Other
	for i := range n {
		set, ok := c.next()
		if !ok {
			return append(all, Other{Kind: OtherNear}), nil
		}
		res, err := program.SolveOnce(c.ctx, apart(p, found, differ), solver.Change{}, set)
		if err != nil {
			return nil, err
		}
		plan, err := p.Finish(res)
		if err != nil {
			return nil, err
		}
		all = append(all, Other{Kind: OtherNear, Plan: plan})
		if plan.Status == solver.Stopped && i+1 < n {
			return append(all, Other{Kind: OtherNear}), nil // what comes next is not known
		}
		if !plan.Has {
			break
		}
		found = append(found, plan)
	}
	return all, nil
}

// apart is the problem with a row for every plan found: at least differ slots are
// filled otherwise.
func apart(p *program.Program, found []*plan.Plan, differ int) *solver.Problem {
	q := copied(p)
	for _, plan := range found {
		row := len(q.Rows)
		q.Rows = append(q.Rows, solver.Row{Name: "apart", Sense: solver.AtMost, Limit: int64(len(q.Groups) - differ)})
		for s := range q.Groups {
			for i, pair := range p.Pairs[s] {
				if alike(p.State, plan, s, &p.Choices[s][pair.K]) {
					col := &q.Groups[s].Columns[i]
					col.Terms = append(col.Terms, solver.Term{Row: row, Coef: 1})
				}
			}
		}
	}
	return q
}

// copied is the problem with rows, columns and terms that may be added to.
func copied(p *program.Program) *solver.Problem {
	q := *p.Problem
	q.Rows = append([]solver.Row(nil), q.Rows...)
	q.Groups = p.Costed()
	for s := range q.Groups {
		for i := range q.Groups[s].Columns {
			col := &q.Groups[s].Columns[i]
			col.Terms = append([]solver.Term(nil), col.Terms...)
		}
	}
	return &q
}

func allSlots(st *catalog.State) []int {
	all := make([]int, len(st.Slots))
	for s := range all {
		all[s] = s
	}
	return all
}

// alike says whether a choice for a slot is no change from a plan: the one the plan
// has there, or one it has for another slot, done alike, with a piece of which there
// is but one. So two pieces that change places are no other plan. What is held in
// reserve makes no difference; two pieces alike in everything are still two pieces.
func alike(st *catalog.State, x *plan.Plan, slot int, c *plan.Choice) bool {
	if plan.SameChoice(x.Lines[slot].Choice, c) {
		return true
	}
	if choice.PieceCount(&st.Pieces[c.Piece]) != 1 {
		return false
	}
	for i := range x.Lines {
		if plan.SameChoice(x.Lines[i].Choice, c) {
			return true
		}
	}
	return false
}

// compare says how far the plan is from the advised one. They are level if they
// differ in total by no more than the slots filled otherwise may err by. The errors
// are added up as they stand (Spread: 15 in 100 on estimates and hours, 10 on prices
// after strip, none on firm ones, or the quote's own range): common practice, no
// published source. What is done alike in both has no error between them.
func (o *Other) compare(st *catalog.State, advised *plan.Plan) {
	if o.Plan == nil || !o.Plan.Has {
		return
	}
	off := catalog.Cents(0)
	for s := range o.Plan.Lines {
		if k := o.Plan.Lines[s].Choice; !alike(st, advised, s, k) {
			o.Differ++
			off += choice.EstimatingError(st, advised.Lines[s].Choice, k)
		}
	}
	more := o.Plan.Expected - advised.Expected
	o.Level = o.Differ > 0 && max(more, -more) <= off
}
