package joint

import (
	"context"
	"fmt"

	"brightset/catalog"
	"brightset/model/check"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// Solve finds the cheapest plan of several jobs of one shop, and beside it what
// each would come to alone. Where a job has no plan alone, or there is none for all, Has
// is false and Status says whether that is proven.
func Solve(ctx context.Context, jobs []*catalog.State, set solver.Settings) (*plan.Joint, error) {
	out := &plan.Joint{Status: solver.Infeasible}
	if err := solveAllAlone(out, ctx, jobs, set); err != nil {
		return nil, err
	}
	for j := range out.Jobs {
		if out.Jobs[j].Alone.Status == solver.Infeasible {
			return out, nil
		}
	}
	t := NewProgram(ctx, jobs)
	if t.gaveUp() {
		out.Status, out.Stop = solver.Stopped, program.NotMade(ctx).Stop
		return out, nil
	}
	start, err := t.startAlone(out)
	if err != nil {
		return nil, err
	}
	most, done := program.Portion(ctx, 0.85)
	defer done()
	if err := t.solve(most, out, start, set); err != nil || !out.Has {
		return out, err
	}
	if err := t.split(ctx, out, set); err != nil {
		return nil, err
	}
	if broken := check.Joint(out); len(broken) > 0 {
		return nil, fmt.Errorf("the plan of all jobs failed its independent check and is not shown: %v", broken[0])
	}
	return out, nil
}

// solveAlone finds every job's plan alone: all of them in two fifths of the time at most,
// each in its share of what is then left.
func solveAllAlone(out *plan.Joint, ctx context.Context, jobs []*catalog.State, set solver.Settings) error {
	all, done := program.Portion(ctx, 0.4)
	defer done()
	for j, st := range jobs {
		own, end := program.Portion(all, 1/float64(len(jobs)-j))
		alone, err := solveAlone(own, st, set)
		end()
		if err != nil {
			return err
		}
		out.Jobs = append(out.Jobs, plan.JointJob{State: st, Alone: alone})
	}
	return nil
}

// nodesAlone bounds the search for the whole proof of a plan alone where a gap will do.
const nodesAlone = 100

// solveAlone finds a job's plan alone: as plan gives it for the job by itself, with the
// whole proof; where that takes long and a gap will do, within the gap.
func solveAlone(ctx context.Context, st *catalog.State, set solver.Settings) (*plan.Plan, error) {
	if set.Gap <= 0 {
		return program.Solve(ctx, st, set)
	}
	whole := set
	whole.Gap, whole.NodeLimit = 0, nodesAlone
	plan, err := program.Solve(ctx, st, whole)
	if err != nil || plan.Stop != solver.NodeLimit ||
		plan.Has && float64(plan.Expected-plan.Bound) <= set.Gap*float64(plan.Expected) {
		return plan, err
	}
	return program.Solve(ctx, st, set)
}

// startAlone is the plans alone as a pick of the joint program: nothing if a job has none
// in hand. Its lines are found again by what they are.
func (t *Program) startAlone(out *plan.Joint) ([][]int, error) {
	var pick []int
	for j, p := range t.Jobs {
		alone := out.Jobs[j].Alone
		if !alone.Has {
			return nil, nil
		}
		own := find(p, alone.Lines)
		if own == nil {
			return nil, nil // made needless by a line of another job's choosing
		}
		pick = append(pick, own...)
	}
	return [][]int{pick}, nil
}

// find gives the columns of the lines of a plan of the same state; nil if one is not there.
func find(p *program.Program, lines []plan.Line) []int {
	pick := make([]int, len(p.Pairs))
	for i := range lines {
		l := &lines[i]
		at := -1
		for c, pair := range p.Pairs[l.Slot] {
			if k, f := p.Line(l.Slot, pair); plan.SameChoice(k, l.Choice) && plan.SameChoice(f, l.Fallback) {
				at = c
				break
			}
		}
		if at < 0 {
			return nil
		}
		pick[l.Slot] = at
	}
	return pick
}

// solve finds the cheapest plan of all jobs and reads each job's part of it back.
func (t *Program) solve(ctx context.Context, out *plan.Joint, start [][]int, set solver.Settings) error {
	res, err := program.SolveOnce(ctx, t.Problem, solver.Change{Start: start}, set)
	if err != nil {
		return err
	}
	out.Status, out.Stop, out.Has, out.Result = res.Status, res.Stop, res.Has, res
	if out.Bound = catalog.Cents(res.Bound); !res.Has {
		return nil
	}
	for j := range t.Jobs {
		out.Jobs[j].Plan = t.part(j, res)
		out.Keeps += out.Jobs[j].Plan.Keeps
	}
	out.Expected, out.Bound = catalog.Cents(res.Total)+out.Keeps, out.Bound+out.Keeps
	t.charge(out)
	return nil
}

// part is one job's lines of an answer, with all they call for charged to it alone.
func (t *Program) part(job int, res solver.Result) *plan.Plan {
	p := t.Jobs[job]
	pick := res.Pick[t.first[job] : t.first[job]+len(p.Problem.Groups)]
	on := make([]bool, len(p.Problem.Switches))
	for h := range on {
		on[h] = res.On[t.sw[job][h]]
	}
	o := p.Problem.Evaluate(pick, on, solver.Change{})
	return p.Plan(solver.Result{Status: solver.Stopped, Stop: res.Stop, Has: true, Pick: pick, On: o.On,
		Charge: o.Charge, Total: o.Total, Bound: o.Total})
}
