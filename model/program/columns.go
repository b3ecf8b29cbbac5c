package program

import (
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/solver"
)

// columns makes a group of every slot and a column of every line.
func (p *Program) columns() {
	takeOver := p.Options.base != nil && p.sameRows()
	for s := range p.State.Slots {
		if p.givesUp() {
			return
		}
		if takeOver && p.sameLines(s) {
			p.Problem.Groups = append(p.Problem.Groups, p.Options.base.Problem.Groups[s])
			continue
		}
		g := solver.Group{Name: p.State.Slots[s].ID, Columns: make([]solver.Column, len(p.Pairs[s]))}
		labels := make([]string, len(p.Choices[s]))
		for i := range labels {
			labels[i] = plan.Label(p.State, &p.Choices[s][i])
		}
		for i, pair := range p.Pairs[s] {
			g.Columns[i] = p.column(s, pair)
			g.Columns[i].Name = labels[pair.K]
			if pair.F != catalog.None {
				g.Columns[i].Name += " / " + labels[pair.F]
			}
		}
		if p.Options.SharedSpares {
			p.shareColumns(s, g.Columns)
		}
		p.Problem.Groups = append(p.Problem.Groups, g)
	}
}

// column gathers what every family of constraints says of one line.
func (p *Program) column(s int, pair Pair) solver.Column {
	k, f := p.Line(s, pair)
	c := solver.Column{Cost: int64(pair.Weighed()), Tie: p.steady.ties(k, f)}
	if p.Options.Best {
		c.Cost = -Weighted(p.State, k)
	}
	term := func(row int, coef int64) {
		if coef != 0 {
			c.Terms = append(c.Terms, solver.Term{Row: row, Coef: coef})
		}
	}
	term(RowMean, Weighted(p.State, k))
	term(RowCompletion, choice.LogLoss(choice.BothFail(k, f)))
	term(RowBudget, p.BudgetCoef(k, pair))
	c.Terms = append(c.Terms, p.uses[s][k.Piece]...)
	c.Terms = append(c.Terms, p.gets[k.Piece]...)
	if f != nil {
		c.Terms = append(c.Terms, p.uses[s][f.Piece]...)
	}
	if v := p.Slots[s].variantOf(pair.K, pair.F); v != catalog.None {
		term(p.oneBeside, p.besideCoef(v))
	}
	slices.SortFunc(c.Terms, func(a, b solver.Term) int { return a.Row - b.Row })
	p.charge(&c, k, f)
	return c
}

// Line gives the choices of a pair; f is nil where there is no fallback.
func (p *Program) Line(s int, pair Pair) (k, f *plan.Choice) {
	b := p.Slots[s]
	return b.choice(pair.K), b.choice(pair.F)
}
