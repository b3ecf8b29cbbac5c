package joint

import (
	"context"
	"math/bits"

	"brightset/catalog"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// split evens out what the jobs pay, so that none pays more than it would alone. Lines
// and shares of charges can come to more than that: a job may take a dearer line to save
// the others a lot, or leave them the common spare. The others then make it good, in
// proportion to what they gain.
func (t *Program) split(ctx context.Context, out *plan.Joint, set solver.Settings) error {
	caps := make([]catalog.Cents, len(out.Jobs))
	sum, known := catalog.Cents(0), true
	for j := range out.Jobs {
		known = known && out.Jobs[j].Alone.Has
		caps[j] = out.Jobs[j].Otherwise(out.Jobs[j].Alone)
		sum += caps[j]
	}
	if out.Capped = plan.CapAlone; !known || sum < out.Expected {
		found, err := t.apart(ctx, out, set)
		if err != nil {
			return err
		}
		if out.Capped = plan.CapApart; !found {
			out.Capped = plan.CapNone
		}
		for j := range caps {
			if found {
				caps[j] = out.Jobs[j].Otherwise(out.Jobs[j].Apart)
			} else {
				caps[j] = out.Jobs[j].Lines + out.Jobs[j].Shared
			}
		}
	}
	evenOut(out, caps)
	return nil
}

// apart finds the cheapest plans in which no job shares a charge with another, for what
// each pays at most. The joint plan is one of them if each pays all it calls for itself;
// so it is at hand if time is up.
func (t *Program) apart(ctx context.Context, out *plan.Joint, set solver.Settings) (bool, error) {
	a := t.Apart()
	res, err := program.SolveOnce(ctx, a.Problem, solver.Change{Start: [][]int{out.Result.Pick}}, set)
	if err != nil || !res.Has {
		return false, err
	}
	if catalog.Cents(res.Total) < out.Expected-out.Keeps { // neither is proven, and the joint plan is not even as good
		return false, nil
	}
	for j := range out.Jobs {
		out.Jobs[j].Apart = a.part(j, res)
	}
	return true, nil
}

// evenOut makes the jobs that gain pay what others would pay above their caps, which
// together come to at least the total.
func evenOut(out *plan.Joint, caps []catalog.Cents) {
	gain, loss := make([]catalog.Cents, len(caps)), catalog.Cents(0)
	for j := range out.Jobs {
		job := &out.Jobs[j]
		if g := caps[j] - job.Lines - job.Shared; g > 0 {
			gain[j] = g
		} else {
			job.Evened = g
			loss -= g
		}
	}
	if loss > 0 {
		for j, cents := range apportion(loss, gain) {
			out.Jobs[j].Evened += cents
		}
	}
	for j := range out.Jobs {
		job := &out.Jobs[j]
		job.Pays = job.Lines + job.Shared + job.Evened
	}
}

// mulDiv is a*b div c and what remains, for sums none of which is negative and b <= c.
func mulDiv(a, b, c catalog.Cents) (div, rest catalog.Cents) {
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	q, r := bits.Div64(hi, lo, uint64(c))
	return catalog.Cents(q), catalog.Cents(r)
}
