package joint

import (
	"cmp"
	"fmt"
	"slices"

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

// terms is a job's terms in the joint rows.
func (a *assembly) terms(job int, list []solver.Term) []solver.Term {
	var out []solver.Term
	for _, t := range list {
		out = append(out, solver.Term{Row: a.row[job][t.Row], Coef: t.Coef})
	}
	slices.SortFunc(out, func(x, y solver.Term) int { return cmp.Compare(x.Row, y.Row) })
	return out
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
