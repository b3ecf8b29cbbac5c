package program

import (
	"cmp"
	"slices"

	"brightset/catalog"
	"brightset/model/sharedspare"
	"brightset/solver"
)

// Classes are taken together in cells where there are very many of them. A pair of
// cells costs what the cheapest pair of their classes does, and takes up of the
// completion row what the least does: the program is then a relaxation, whose total is
// at most that of any plan. Where its answer is not what the lines picked really come
// to, the cells in question are split, and it is solved again. With cells of one class
// the program is exact.

// shareCell is classes of one side. Two rows tie their lines to the spare's group.
type shareCell struct {
	classes []int
	rows    [2]int // at most, at least
}

// yielding lists who may yield of two lines that share: whoever is cheaper, cost and keeping weighed, but
// with a budget on what is expected, which takes nothing off for what is kept, either.
func (p *Program) yielding() []sharedspare.Yielding {
	if p.keepingApart() {
		return []sharedspare.Yielding{sharedspare.FirstYields, sharedspare.SecondYields}
	}
	return []sharedspare.Yielding{sharedspare.CheaperYields}
}

// keepingApart says whether the budget counts what is compared, but for what is kept.
func (p *Program) keepingApart() bool {
	job := &p.State.Job
	return job.BudgetOn == catalog.OnExpected && (job.Budget.Set || !p.Options.FixedLimits) &&
		slices.ContainsFunc(p.State.Slots, func(s catalog.Slot) bool { return s.Keep != 0 })
}

// cellPair is a cell of either side, and the least that their lines come to together.
type cellPair struct {
	of      [2]int
	yields  sharedspare.Yielding
	weighed catalog.Cents // by what plans are compared by
	cost    catalog.Cents
	loss    int64 // more than the two lines by themselves
}

// makeCells sorts the classes of all spares into cells, so many that the program has
// about as many columns for them as the options allow.
func (p *Program) makeCells() {
	most := 0 // per side of a spare; 0: every class is a cell
	if limit := p.Options.pairsAtMost; limit > 0 && p.pairsOfClasses(1<<30) > limit {
		for most = 1; p.pairsOfClasses(most+1) <= limit; {
			most++
		}
	}
	for i := range p.spares {
		sp := &p.spares[i]
		for side := range sp.class {
			sp.cells[side] = cellsOf(sp.class[side], most)
		}
		sp.pairCells(p.yielding())
	}
}

// pairsOfClasses is how many pairs there are with at most so many cells a side.
func (p *Program) pairsOfClasses(most int) int {
	sum := 0
	for i := range p.spares {
		sum += min(most, len(p.spares[i].class[0])) * min(most, len(p.spares[i].class[1]))
	}
	return sum
}

// cellsOf cuts the classes, in the order of their chance of failing and of what the
// spare costs, into at most so many cells.
func cellsOf(classes []shareClass, most int) []shareCell {
	order := make([]int, len(classes))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int {
		c, d := &classes[a], &classes[b]
		return cmp.Or(cmp.Compare(c.Fails, d.Fails), cmp.Compare(c.FallbackCost, d.FallbackCost), cmp.Compare(a, b))
	})
	if most == 0 || most > len(order) {
		most = len(order)
	}
	var cells []shareCell
	for i := range most {
		cells = append(cells, shareCell{classes: order[i*len(order)/most : (i+1)*len(order)/most]})
	}
	return cells
}

// pairCells works out the pairs of cells.
func (sp *spare) pairCells(yielding []sharedspare.Yielding) {
	sp.pairs = nil
	for side := range sp.cells {
		for i := range sp.cells[side] {
			for _, c := range sp.cells[side][i].classes {
				sp.class[side][c].cell = i
			}
		}
	}
	for i := range sp.cells[0] {
		for j := range sp.cells[1] {
			for _, y := range yielding {
				if pair, ok := sp.leastOf(i, j, y); ok {
					sp.pairs = append(sp.pairs, pair)
				}
			}
		}
	}
}

// leastOf is the least that lines of two cells come to; false where none can share.
func (sp *spare) leastOf(i, j int, yields sharedspare.Yielding) (cellPair, bool) {
	least, any := cellPair{of: [2]int{i, j}, yields: yields}, false
	for _, x := range sp.cells[0][i].classes {
		for _, y := range sp.cells[1][j].classes {
			both, ok := yields.PairUp(sp.class[0][x].Sharer, sp.class[1][y].Sharer)
			if !ok {
				continue
			}
			loss := sharedspare.PairLoss(both.Both) - sp.class[0][x].Loss() - sp.class[1][y].Loss()
			if !any {
				least.weighed, least.cost, least.loss, any = both.Weighed(), both.Cost, loss, true
			}
			least.weighed, least.cost = min(least.weighed, both.Weighed()), min(least.cost, both.Cost)
			least.loss = min(least.loss, loss)
		}
	}
	return least, any
}

// pickedPair is what two lines picked really come to, and what the program takes them
// to come to; ok is false where they can't share at all.
func (p *Program) pickedPair(sp *spare, pick []int) (class [2]int, real, taken cellPair, ok bool) {
	taken = sp.pairs[pick[sp.group]-1]
	class = [2]int{p.classPicked(sp, 0, pick), p.classPicked(sp, 1, pick)}
	a, b := &sp.class[0][class[0]], &sp.class[1][class[1]]
	both, ok := taken.yields.PairUp(a.Sharer, b.Sharer)
	loss := sharedspare.PairLoss(both.Both) - a.Loss() - b.Loss()
	real = cellPair{taken.of, taken.yields, both.Weighed(), both.Cost, loss}
	return class, real, taken, ok
}

// exact says whether an answer is what its lines really come to.
func (p *Program) exact(res solver.Result) bool {
	for i := range p.spares {
		sp := &p.spares[i]
		if res.Pick[sp.group] > 0 {
			if _, real, taken, ok := p.pickedPair(sp, res.Pick); !ok || real != taken {
				return false
			}
		}
	}
	return true
}

// pairsAllowed says whether all lines that share in an answer can.
func (p *Program) pairsAllowed(res solver.Result) bool {
	for i := range p.spares {
		sp := &p.spares[i]
		if res.Pick[sp.group] > 0 {
			if _, _, _, ok := p.pickedPair(sp, res.Pick); !ok {
				return false
			}
		}
	}
	return true
}

// split cuts the cells of an answer that is not what its lines come to, around the
// classes that were picked, and makes the constraints anew.
func (p *Program) split(res solver.Result) {
	for i := range p.spares {
		sp := &p.spares[i]
		if res.Pick[sp.group] == 0 {
			continue
		}
		class, real, taken, ok := p.pickedPair(sp, res.Pick)
		if ok && real == taken {
			continue
		}
		for side := range sp.cells {
			sp.cells[side] = splitCell(sp.cells[side], taken.of[side], class[side])
		}
		sp.pairCells(p.yielding())
	}
	p.Problem = &solver.Problem{Uncharged: p.Problem.Uncharged}
	p.constrain()
}

// splitCell cuts a cell into one class, those before it and those after it.
func splitCell(cells []shareCell, at, class int) []shareCell {
	all := cells[at].classes
	place := slices.Index(all, class)
	var parts []shareCell
	for _, part := range [][]int{all[:place], {class}, all[place+1:]} {
		if len(part) > 0 {
			parts = append(parts, shareCell{classes: part})
		}
	}
	return slices.Concat(cells[:at], parts, cells[at+1:])
}
