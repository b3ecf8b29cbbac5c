package ask

import (
	"context"
	"slices"

	"brightset/catalog"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
	"brightset/solver/parallel"
)

// Curve is the least total for every weighted mean, the budget lifted.
type Curve struct {
	Of     *catalog.State // what its plans are of, with the budget
	Points []CurvePoint   // rising mean, each dearer than the one before, what they keep weighed
	Marks  []TargetMark
	Gaps   []Gap      // where not everything is known, rising; between them every point is proven, and none is missing
	Whole  bool       // there are no gaps, and every mark is proven
	NoPlan *plan.Plan // why there is no point at all; nil where there is one
}

// Gap is a stretch of means in which a point may be missing, or not be the cheapest.
type Gap struct {
	From, To catalog.Centi
	Bound    catalog.Cents // no plan with a mean above From costs less: not even weighed against what it keeps
	Known    bool          // there is such a bound, and it is a price
}

// CurvePoint is a plan than which nothing with as high a mean is cheaper, what is kept weighed.
type CurvePoint struct {
	Plan    *plan.Plan
	Within  bool              // within today's budget; true where there is none
	Changes []plan.Difference // from the point before
}

// First is the first point whose mean is no lower than the one given; -1 where none is.
func (c *Curve) First(mean catalog.Centi) int {
	return slices.IndexFunc(c.Points, func(p CurvePoint) bool { return p.Plan.Grade >= float64(mean)/100-1e-9 })
}

// TargetMark is a named target and the cheapest plan that meets all it asks for,
// floors included, the budget lifted.
type TargetMark struct {
	Name string
	Plan *plan.Plan // Has is false where nothing meets it
}

// Frontier works the curve out: from the cheapest plan whatever its mean to the
// highest mean any plan reaches. The rules of the job other than mean and budget
// stay. Between two points there is none that is step of mean further on; with step
// 0 every plan is a point that no other beats in both mean and total.
func Frontier(ctx context.Context, st *catalog.State, step catalog.Centi, set solver.Settings) (*Curve, error) {
	free := lifted(st)
	e, err := program.NewExplorer(ctx, free, program.Options{}, set)
	if err != nil {
		return nil, err
	}
	c := &Curve{Of: st}
	if c.NoPlan = e.Unfillable(ctx); c.NoPlan != nil {
		return c, nil
	}
	top, err := highest(ctx, free, set)
	if err != nil {
		return nil, err
	}
	if top == nil {
		plan, err := e.Ask(ctx, solver.Change{})
		if err != nil || !plan.Has {
			c.NoPlan = plan
			return c, err
		}
		top = new(int64(program.NoLimit) - 1) // the time was too short to know
	}
	weight := program.TotalWeight(st)
	f := solver.Front{Row: program.RowMean, From: -program.NoLimit + 1, To: *top, Next: func(sum int64) int64 {
		if step == 0 || sum >= *top {
			return sum + 1
		}
		return min((sum/(int64(step)*weight)+1)*int64(step)*weight, *top)
	}}
	points, gaps, err := e.Solver.Front(ctx, solver.Change{}, f, set)
	if err != nil {
		return c, err
	}
	for _, p := range points {
		if err := c.add(e, p); err != nil {
			return c, err
		}
	}
	for _, g := range gaps {
		c.gap(g, weight)
	}
	if c.Whole = len(c.Gaps) == 0; !c.Whole {
		return c, nil
	}
	return c, c.mark(ctx, e)
}

// gap puts what is not known of sums in terms of means; what lies side by side with the
// same bound is one.
func (c *Curve) gap(g solver.Gap, weight int64) {
	now := Gap{From: catalog.Centi(max(0, g.After/weight)), To: catalog.Centi(min((g.Until+weight-1)/weight, maxGrade)),
		Bound: catalog.Cents(g.Bound), Known: g.Bound > 0}
	if n := len(c.Gaps); n > 0 && c.Gaps[n-1].To >= now.From && c.Gaps[n-1].Bound == now.Bound {
		c.Gaps[n-1].To = now.To
		return
	}
	c.Gaps = append(c.Gaps, now)
}

// maxGrade is the highest mean there can be.
const maxGrade = 100_00

// lifted is the state without a mean and a budget.
func lifted(st *catalog.State) *catalog.State {
	free := st.Clone()
	free.Job.Target.Mean = catalog.Val[catalog.Centi]{}
	free.Job.Budget = catalog.Val[catalog.Cents]{}
	return free
}

// highest is a sum of weight x grade that no plan exceeds. It is nil if there is no plan,
// or none was found in time, of which it takes a quarter at most: the curve is what is asked for.
func highest(ctx context.Context, free *catalog.State, set solver.Settings) (top *int64, err error) {
	ctx, done := program.Portion(ctx, 0.25)
	defer done()
	p := program.CompileWithin(ctx, free, program.Options{Best: true, FixedLimits: true})
	res, err := p.SolveOnce(ctx, solver.Change{}, set)
	if err != nil || !res.Has {
		return nil, err
	}
	return new(-res.Bound), nil
}

func (c *Curve) add(e *program.Explorer, p solver.Point) error {
	pl, err := e.Finish(p.Result)
	if err != nil {
		return err
	}
	point := CurvePoint{Plan: pl, Within: true}
	if job := &c.Of.Job; job.Budget.Set {
		point.Within = pl.LeftOf(job) >= 0
	}
	if n := len(c.Points); n > 0 {
		point.Changes = plan.Differences(c.Points[n-1].Plan, pl)
	}
	c.Points = append(c.Points, point)
	return nil
}

// mark solves the job once under every named target in the place of the job's own, the
// budget lifted: what plan says of a file that names that target and gives no budget.
// What slots ask by themselves stays.
func (c *Curve) mark(ctx context.Context, e *program.Explorer) error {
	targets := c.Of.Tables.Targets
	plans := make([]*plan.Plan, len(targets))
	err := parallel.Do(ctx, len(targets), func(i int) error {
		asked := c.Of.AimedAt(targets[i])
		asked.Job.Budget = catalog.Val[catalog.Cents]{}
		a, err := e.After(program.CompileWithin(ctx, asked, program.Options{FixedLimits: true}))
		if err != nil {
			return err
		}
		plans[i], err = a.Ask(ctx, solver.Change{})
		return err
	})
	for i, p := range plans {
		if p == nil || p.Status == solver.Stopped {
			if c.Whole = false; p == nil || !p.Has {
				continue // whether anything meets it is not known
			}
		}
		c.Marks = append(c.Marks, TargetMark{targets[i].Name, p})
	}
	return err
}
