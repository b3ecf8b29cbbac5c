package joint

import (
	"cmp"
	"fmt"
	"slices"

	"brightset/catalog"
	"brightset/model/program"
	"brightset/solver"
)

// assembly is the joint program in the making: where each job's rows and switches went.
type assembly struct {
	*Program
	row   [][]int         // per job and row
	main  [][]int         // per job and switch, the one that is in the total
	own   [][]int         // per job with a budget and switch, the one on its own account
	extra []map[use][]int // per job: rows that lines using a piece in a slot have a 1 in
	joint int             // so many switches, the first ones, are of common things
}

type use struct{ slot, piece int }

// assemble lays the jobs' programs side by side.
func (t *Program) assemble() {
	if t.shares {
		t.findCommon()
	}
	t.Problem = &solver.Problem{}
	n := len(t.Jobs)
	a := &assembly{Program: t, row: make([][]int, n), main: make([][]int, n), own: make([][]int, n),
		extra: make([]map[use][]int, n)}
	a.rows()
	a.switches()
	a.budgets()
	a.foreignTrades()
	for j := range t.Jobs {
		a.groups(j)
		a.rules(j)
	}
	t.sw = a.main
	t.Problem.Parts = t.first
}

// addRow gives the index of a new row.
func (a *assembly) addRow(r solver.Row) int {
	a.Problem.Rows = append(a.Problem.Rows, r)
	return len(a.Problem.Rows) - 1
}

// rows copies the rows of each job; those of contested pieces become one:
//
//	sum over all jobs' slots of n [k or f is the piece] <= quantity
func (a *assembly) rows() {
	joint := map[string]int{}
	for j, p := range a.Jobs {
		a.row[j] = make([]int, len(p.Problem.Rows))
		contested := map[int]string{}
		for _, i := range p.Options.Shared {
			contested[p.RowOf[i]] = p.State.Pieces[i].Key()
		}
		for r, row := range p.Problem.Rows {
			key, is := contested[r]
			if !is {
				row.Name = jobName(j, row.Name)
				row.Tag = ""
				a.row[j][r] = a.addRow(row)
				continue
			}
			at, there := joint[key]
			if !there {
				at = a.addRow(row)
				joint[key] = at
			}
			a.row[j][r] = at
			have := &a.Problem.Rows[at]
			have.Limit = min(have.Limit, row.Limit)
		}
	}
}

func jobName(job int, name string) string { return fmt.Sprintf("job %d: %s", job+1, name) }

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

// terms is a job's terms in the joint rows.
func (a *assembly) terms(job int, list []solver.Term) []solver.Term {
	var out []solver.Term
	for _, t := range list {
		out = append(out, solver.Term{Row: a.row[job][t.Row], Coef: t.Coef})
	}
	slices.SortFunc(out, func(x, y solver.Term) int { return cmp.Compare(x.Row, y.Row) })
	return out
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
			a.Problem.Switches = append(a.Problem.Switches, sw)
		}
	}
}

// foreignTrades keeps the shop's pieces that a job's trade gives out of all other jobs,
// and trades none of them twice:
//
//	[k or f is give] + y <= 1, for every slot of another job
//	sum of y over the trades of all jobs that give one piece <= 1, and that take one
func (a *assembly) foreignTrades() {
	for j := range a.Jobs {
		a.extra[j] = map[use][]int{}
	}
	for j, p := range a.Jobs {
		for _, tr := range p.State.Trades {
			give := &p.State.Pieces[tr.Give]
			if !give.InShop {
				continue
			}
			for other := range a.Jobs {
				if other != j {
					a.keepOut(j, tr.ID, other, give.Key())
				}
			}
		}
	}
	for _, side := range []func(*catalog.Trade) int{
		func(t *catalog.Trade) int { return t.Give }, func(t *catalog.Trade) int { return t.Get },
	} {
		a.onceOnly(side)
	}
}

// keepOut adds the rows of one trade and one other job.
func (a *assembly) keepOut(job int, trade string, other int, key string) {
	p := a.Jobs[other]
	piece := pieceAt(p.State, key)
	if piece == catalog.None {
		return
	}
	for s := range p.State.Slots {
		if !p.Usable(s, piece) {
			continue
		}
		r := a.addRow(solver.Row{Name: jobName(job, "trade "+trade+" give ") + jobName(other, p.State.Slots[s].ID),
			Sense: solver.AtMost, Limit: 1})
		a.one(job, trade, r)
		a.extra[other][use{s, piece}] = append(a.extra[other][use{s, piece}], r)
	}
}

// one gives a trade's switch a 1 in a row that is newer than all it has a term in.
func (a *assembly) one(job int, trade string, row int) {
	p := a.Jobs[job]
	t := slices.IndexFunc(p.State.Trades, func(t catalog.Trade) bool { return t.ID == trade })
	sw := &a.Problem.Switches[a.main[job][p.TradeSwitch(t)]]
	sw.Terms = append(sw.Terms, solver.Term{Row: row, Coef: 1})
}

func (a *assembly) onceOnly(side func(*catalog.Trade) int) {
	type trade struct {
		job int
		id  string
	}
	of := map[string][]trade{}
	var keys []string
	for j, p := range a.Jobs {
		for i := range p.State.Trades {
			piece := &p.State.Pieces[side(&p.State.Trades[i])]
			if !piece.InShop {
				continue
			}
			if len(of[piece.Key()]) == 0 {
				keys = append(keys, piece.Key())
			}
			of[piece.Key()] = append(of[piece.Key()], trade{j, p.State.Trades[i].ID})
		}
	}
	for _, key := range keys {
		if list := of[key]; list[0].job != list[len(list)-1].job {
			r := a.addRow(solver.Row{Name: "trade once " + key, Sense: solver.AtMost, Limit: 1})
			for _, t := range list {
				a.one(t.job, t.id, r)
			}
		}
	}
}

// groups copies the groups of a job.
func (a *assembly) groups(job int) {
	p := a.Jobs[job]
	a.first = append(a.first, len(a.Problem.Groups))
	for s, g := range p.Problem.Groups {
		columns := make([]solver.Column, len(g.Columns))
		for i, c := range g.Columns {
			columns[i] = a.column(job, s, p.Pairs[s][i], c)
		}
		a.Problem.Groups = append(a.Problem.Groups, solver.Group{Name: jobName(job, g.Name), Columns: columns})
	}
}

func (a *assembly) column(job, slot int, pair program.Pair, c solver.Column) solver.Column {
	p := a.Jobs[job]
	k, f := p.Line(slot, pair)
	terms := a.terms(job, c.Terms)
	for _, r := range a.extra[job][use{slot, k.Piece}] {
		terms = append(terms, solver.Term{Row: r, Coef: 1})
	}
	if f != nil {
		for _, r := range a.extra[job][use{slot, f.Piece}] {
			terms = append(terms, solver.Term{Row: r, Coef: 1})
		}
	}
	slices.SortFunc(terms, func(x, y solver.Term) int { return cmp.Compare(x.Row, y.Row) })
	needs, loads := a.direct(job, c.Needs), c.Loads
	c.Terms, c.Needs, c.Loads = terms, a.mapped(a.main[job], needs, nil), a.loads(a.main[job], loads, nil)
	if a.own[job] != nil {
		c.Needs, c.Loads = a.mapped(a.own[job], needs, c.Needs), a.loads(a.own[job], loads, c.Loads)
	}
	return c
}

func (a *assembly) loads(at []int, list []solver.Load, more []solver.Load) []solver.Load {
	out := slices.Clone(more)
	for _, l := range list {
		out = append(out, solver.Load{Switch: at[l.Switch], Amount: l.Amount})
	}
	slices.SortFunc(out, func(x, y solver.Load) int { return cmp.Compare(x.Switch, y.Switch) })
	return out
}

// rules copies the near and same rules of a job.
func (a *assembly) rules(job int) {
	shift := func(groups []int) []int {
		out := make([]int, len(groups))
		for i, g := range groups {
			out[i] = a.first[job] + g
		}
		return out
	}
	for _, n := range a.Jobs[job].Problem.WithinTolerance {
		n.Name, n.Tag, n.Groups = jobName(job, n.Name), "", shift(n.Groups)
		a.Problem.WithinTolerance = append(a.Problem.WithinTolerance, n)
	}
	for _, n := range a.Jobs[job].Problem.AllEqual {
		n.Name, n.Tag, n.Groups = jobName(job, n.Name), "", shift(n.Groups)
		a.Problem.AllEqual = append(a.Problem.AllEqual, n)
	}
}
