package ask

import (
	"context"
	"slices"

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
	Differ int        // slots filled otherwise than in the advised plan, see swaps
	Level  bool       // filled otherwise, and no further off in total than the estimates may err
}

// Others gives the n cheapest further plans, each filling at least differ slots
// otherwise than the advised plan and than each other; and then do-least, the best
// finish, and with locks the plan without them.
//
// Slots are filled otherwise that are left when every line that does the same in both is
// taken away, as often as both do it (swap.go): pieces of one bag, or equal ones, that only
// change places are no other plan, nor is a piece that goes elsewhere. What is held in
// reserve makes no difference. For every plan x found already there is a row more
// (keepApart):
//
//	sum over things done of min(times in it, times in x) <= slots - differ
//
// Where there are fewer than n such plans the list ends with one that has no lines.
// The advised plan is what Solve gave. Plans that time doesn't suffice for are nil.
func Others(ctx context.Context, advised *plan.Plan, n, differ int, set solver.Settings) ([]Other, error) {
	st := advised.Of
	c := newClock(ctx, set)
	all, err := nearPlans(c, advised, n, differ)
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
func nearPlans(c *clock, advised *plan.Plan, n, differ int) ([]Other, error) {
	st := advised.Of
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

// apart is the problem with rows for every plan found: at least differ slots are filled
// otherwise.
func apart(p *program.Program, found []*plan.Plan, differ int) *solver.Problem {
	q := copied(p)
	w := swapsOf(p.State)
	most := mostTimes(p, w)
	for _, x := range found {
		keepApart(q, p, w, most, x, differ)
	}
	return q
}

// mostTimes is how often a set can do each thing at most: in as many slots as have a line
// for it, and with as many pieces as there are.
func mostTimes(p *program.Program, w *swaps) map[done]int {
	most := map[done]int{}
	for s := range p.Pairs {
		seen := map[done]bool{}
		for _, pair := range p.Pairs[s] {
			if k := w.done(&p.Choices[s][pair.K]); !seen[k] {
				seen[k] = true
				most[k] = min(most[k]+1, w.count[k.class])
			}
		}
	}
	return most
}

// keepApart adds what one plan found asks for. Where a set can do a thing more often
// than the plan does, so many times count as alike and no more: a group beside the slots
// picks a number j that is no less than how often it is done, or the number of times in
// the plan, which stands for any:
//
//	sum over slots of [it is done] + slots - j <= slots, for j < times; nothing for j = times
//	sum over all such of j, and over slots of the other things done <= slots - differ
func keepApart(q *solver.Problem, p *program.Program, w *swaps, most map[done]int, x *plan.Plan, differ int) {
	slots := int64(len(p.State.Slots))
	row := func(name string, limit int64) int {
		q.Rows = append(q.Rows, solver.Row{Name: name, Sense: solver.AtMost, Limit: limit})
		return len(q.Rows) - 1
	}
	alike := row("apart", slots-int64(differ))
	times := w.times(x)
	rows := map[done]int{}
	for i := range x.Lines {
		k := w.done(x.Lines[i].Choice)
		if _, known := rows[k]; known {
			continue
		}
		if rows[k] = alike; most[k] <= times[k] {
			continue
		}
		rows[k] = row("as often", slots)
		g := solver.Group{Name: "as often"}
		for j := range int64(times[k]) {
			g.Columns = append(g.Columns, solver.Column{
				Name:  "at most",
				Terms: terms(solver.Term{Row: alike, Coef: j}, solver.Term{Row: rows[k], Coef: slots - j}),
			})
		}
		g.Columns = append(g.Columns, solver.Column{
			Name:  "any",
			Terms: terms(solver.Term{Row: alike, Coef: int64(times[k])}),
		})
		q.Groups = append(q.Groups, g)
	}
	for s := range p.Pairs {
		for i, pair := range p.Pairs[s] {
			if r, ok := rows[w.done(&p.Choices[s][pair.K])]; ok {
				col := &q.Groups[s].Columns[i]
				col.Terms = append(col.Terms, solver.Term{Row: r, Coef: 1})
			}
		}
	}
}

// terms leaves out coefficients of nothing.
func terms(all ...solver.Term) []solver.Term {
	return slices.DeleteFunc(all, func(t solver.Term) bool { return t.Coef == 0 })
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

// compare says how far the plan is from the advised one. They are level if they
// differ in total by no more than the lines that differ may err by: the cheaper of the two
// upwards, the dearer downwards, added up as they stand (choice.Spread). What is done
// alike in both has no error between them.
func (o *Other) compare(st *catalog.State, advised *plan.Plan) {
	if o.Plan == nil || !o.Plan.Has {
		return
	}
	was, is := swapsOf(st).unmatched(advised, o.Plan)
	o.Differ = len(is)
	now, then := spreadOf(advised, was), spreadOf(o.Plan, is)
	if more := o.Plan.Weighed() - advised.Weighed(); more >= 0 {
		o.Level = o.Differ > 0 && more <= now.Above+then.Below
	} else {
		o.Level = o.Differ > 0 && -more <= now.Below+then.Above
	}
}

// spreadOf adds up how far some lines of a plan may be off.
func spreadOf(pl *plan.Plan, lines []int) choice.Span {
	st := pl.Of
	sum := choice.Span{}
	for _, s := range lines {
		off := choice.Spread(st, pl.Lines[s].Choice)
		sum.Below, sum.Above = sum.Below+off.Below, sum.Above+off.Above
	}
	return sum
}
