package program

import (
	"fmt"
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/sharedspare"
	"brightset/solver"
)

// shareRows ties the lines that share a spare to the group of the spare, for every
// cell of either slot:
//
//	sum of the slot's columns of the cell - sum of the group's columns with it = 0
//
// as a row at most and a row at least. So both share, or neither does, and the group
// knows who they are.
func (p *Program) shareRows() {
	for i := range p.spares {
		sp := &p.spares[i]
		for side, slot := range sp.slots {
			for c := range sp.cells[side] {
				name := fmt.Sprintf("%s cell %d %s", p.spareName(sp), c+1, p.State.Slots[slot].ID)
				sp.cells[side][c].rows = [2]int{
					p.row(solver.Row{Name: name, Sense: solver.AtMost}),
					p.row(solver.Row{Name: name + " too", Sense: solver.AtLeast}),
				}
			}
		}
	}
}

func (p *Program) spareName(sp *spare) string {
	return fmt.Sprintf("one %s for %s and %s", p.State.Pieces[sp.piece].Key(), p.State.Slots[sp.slots[0]].ID,
		p.State.Slots[sp.slots[1]].ID)
}

// shareColumns gives the lines that share a term in the rows of their cell, and takes
// them out of the rows that count the spare, which their group uses once for both. The terms in
// rows of trades that are a slot's own stay: what is given away is no spare.
func (p *Program) shareColumns(s int, columns []solver.Column) {
	first := len(columns) - len(p.sharing[s])
	for i, l := range p.sharing[s] {
		sp, col := &p.spares[l.spare], &columns[first+i]
		rows := p.countRows(sp.piece)
		terms := slices.DeleteFunc(slices.Clone(col.Terms), func(t solver.Term) bool { return slices.Contains(rows, t.Row) })
		for _, r := range sp.cells[l.side][sp.class[l.side][l.class].cell].rows {
			terms = append(terms, solver.Term{Row: r, Coef: 1})
		}
		col.Terms = sortedTerms(terms)
		col.Name += ", shared with " + p.State.Slots[sp.slots[1-l.side]].ID
	}
}

func sortedTerms(terms []solver.Term) []solver.Term {
	slices.SortFunc(terms, func(a, b solver.Term) int { return a.Row - b.Row })
	return terms
}

// shareGroups adds a group per spare: none, or a pair of cells, which costs what the
// one that yields costs more; takes up of the completion row what the pair takes up
// more than its two lines by themselves; and uses as many of the piece as the slot that
// needs more of them.
func (p *Program) shareGroups() {
	for i := range p.spares {
		sp := &p.spares[i]
		sp.group = len(p.Problem.Groups)
		g := solver.Group{Name: p.spareName(sp), Columns: []solver.Column{{Name: "not shared"}}}
		many := max(choice.Needed(&p.State.Slots[sp.slots[0]]), choice.Needed(&p.State.Slots[sp.slots[1]]))
		for _, pair := range sp.pairs {
			a, b := &sp.cells[0][pair.of[0]], &sp.cells[1][pair.of[1]]
			c := solver.Column{Name: fmt.Sprintf("cells %d and %d", pair.of[0]+1, pair.of[1]+1), Cost: int64(pair.weighed)}
			if pair.yields != sharedspare.CheaperYields {
				c.Name += fmt.Sprintf(", slot %d yields", pair.yields)
			}
			term := func(row int, coef int64) {
				if coef != 0 {
					c.Terms = append(c.Terms, solver.Term{Row: row, Coef: coef})
				}
			}
			term(RowCompletion, pair.loss)
			if p.State.Job.BudgetOn == catalog.OnExpected {
				term(RowBudget, int64(pair.cost))
			}
			for _, r := range p.countRows(sp.piece) {
				term(r, int64(many))
			}
			for _, r := range [][2]int{a.rows, b.rows} {
				term(r[0], -1)
				term(r[1], -1)
			}
			c.Terms = sortedTerms(c.Terms)
			g.Columns = append(g.Columns, c)
		}
		p.Problem.Groups = append(p.Problem.Groups, g)
	}
}

// readShared marks the lines of a plan that share a spare, and adds to them, and to
// the total, what yielding costs. It goes by the classes of the lines, whatever the
// cells they are in.
func (p *Program) readShared(pl *plan.Plan, pick []int) {
	for i := range p.spares {
		sp := &p.spares[i]
		if pick[sp.group] == 0 {
			continue
		}
		a, b := p.classPicked(sp, 0, pick), p.classPicked(sp, 1, pick)
		pair, _ := sp.pairs[pick[sp.group]-1].yields.PairUp(sp.class[0][a].Sharer, sp.class[1][b].Sharer)
		yields := 0
		if pair.Later {
			yields = 1
		}
		one := 1.0
		for side, slot := range sp.slots {
			l := &pl.Lines[slot]
			l.Sharing = &plan.Sharing{With: sp.slots[1-side], Yields: side == yields}
			one *= 1 - float64(choice.BothFail(l.Choice, l.Fallback))/float64(choice.Certain)
		}
		pl.Lines[sp.slots[yields]].Expected += pair.Cost
		pl.Expected += pair.Cost
		pl.Lines[sp.slots[yields]].Keeps -= pair.Loses
		pl.Keeps -= pair.Loses
		pl.Completion *= (1 - float64(pair.Both)/float64(sharedspare.Surely)) / one
	}
}

// classPicked is the class of the line picked on a side of a spare that is shared.
func (p *Program) classPicked(sp *spare, side int, pick []int) int {
	slot := sp.slots[side]
	return p.sharing[slot][pick[slot]-(len(p.Pairs[slot])-len(p.sharing[slot]))].class
}
