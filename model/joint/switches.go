package joint

import (
	"cmp"
	"slices"

	"brightset/catalog"
	"brightset/model/program"
	"brightset/solver"
)

// switches makes one for every common thing, and one for everything else of a job.
func (a *assembly) switches() {
	shared := map[[2]int]int{} // job and switch: the common one
	for j, p := range a.Jobs {
		a.main[j] = make([]int, len(p.Problem.Switches))
	}
	for _, c := range a.common {
		at := catalog.None
		for j, p := range a.Jobs {
			if c.of[j] == catalog.None {
				continue
			}
			h := switchOf(p, c.kind, c.of[j])
			if at == catalog.None {
				at = len(a.Problem.Switches)
				sw := p.Problem.Switches[h]
				sw.Needs, sw.Tag = nil, ""
				a.Problem.Switches = append(a.Problem.Switches, sw)
			}
			a.main[j][h] = at
			shared[[2]int{j, h}] = at
		}
	}
	a.joint = len(a.Problem.Switches)
	for j, p := range a.Jobs {
		for h, sw := range p.Problem.Switches {
			if _, is := shared[[2]int{j, h}]; is {
				continue
			}
			a.main[j][h] = len(a.Problem.Switches)
			sw.Name, sw.Tag, sw.Needs = jobName(j, sw.Name), "", nil
			sw.Terms = a.terms(j, sw.Terms)
			a.Problem.Switches = append(a.Problem.Switches, sw)
		}
		for h := range p.Problem.Switches {
			at := &a.Problem.Switches[a.main[j][h]]
			for _, n := range p.Problem.Switches[h].Needs {
				if !a.asideOf(j, h, n) {
					at.Needs = a.mapped(a.main[j], []int{n}, at.Needs)
				}
			}
		}
	}
}

// asideOf says whether a common switch has to do without what a job's own needs: the
// vendor of a bundle of the shop's who stands in the job's file. That job's lines need
// him themselves; the bundle is bought once for all the same.
func (a *assembly) asideOf(job, sw, need int) bool {
	return a.main[job][sw] < a.joint && a.main[job][need] >= a.joint
}

// direct are a line's switches, with those that the common ones do without.
func (a *assembly) direct(job int, needs []int) []int {
	out := slices.Clone(needs)
	for _, h := range needs {
		for _, n := range a.Jobs[job].Problem.Switches[h].Needs {
			if a.asideOf(job, h, n) {
				out = append(out, n)
			}
		}
	}
	return out
}

// mapped adds the switches that a job's list stands for to those already there.
func (a *assembly) mapped(at []int, list []int, more []int) []int {
	out := slices.Clone(more)
	for _, h := range list {
		out = append(out, at[h])
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// budgets gives every job that has one an account of its own, to which it pays all it
// calls for as if it were alone:
//
//	cash or E of its lines + its own freights, minimums, bundles - credits <= its budget
func (a *assembly) budgets() {
	for j, p := range a.Jobs {
		row := &a.Problem.Rows[a.row[j][program.RowBudget]]
		if row.Limit >= program.NoLimit {
			continue
		}
		if quoted := row.Account > 0; quoted { // its switches have an account of their own already
			for h := range p.Problem.Switches {
				if sw := &a.Problem.Switches[a.main[j][h]]; p.Problem.Switches[h].Account > 0 {
					sw.Account = j + 1
				}
			}
			row.Account = j + 1
			continue
		}
		row.Account = j + 1
		a.own[j] = make([]int, len(p.Problem.Switches))
		trades := p.TradeSwitch(0)
		for h, sw := range p.Problem.Switches {
			if h >= trades { // a voluntary one has to stay one
				credit := &a.Problem.Switches[a.main[j][h]]
				credit.Terms = append([]solver.Term{{Row: a.row[j][program.RowBudget], Coef: sw.Fixed}},
					credit.Terms...)
				slices.SortFunc(credit.Terms, func(x, y solver.Term) int { return cmp.Compare(x.Row, y.Row) })
				a.own[j][h] = a.main[j][h]
				continue
			}
			a.own[j][h] = len(a.Problem.Switches)
			sw.Name, sw.Tag, sw.Account = jobName(j, sw.Name+" by itself"), "", j+1
			sw.Needs = a.mapped(a.own[j], sw.Needs, nil)
			if sw.Voluntary { // boxes: the job pays for those that are bought
				at := &a.Problem.Switches[a.main[j][h]]
				at.Needs = append(slices.Clone(at.Needs), len(a.Problem.Switches))
				sw.Voluntary, sw.Terms = false, nil
			}
			a.Problem.Switches = append(a.Problem.Switches, sw)
		}
	}
}
