package program

import (
	"context"
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/solver"
)

// Options say how a program is made. The zero value makes one whose limits,
// freights and tags may be changed from solve to solve.
type Options struct {
	// AllLines leaves every line in, before any dominance: for --mps, and for
	// solves that ban or fix columns freely.
	AllLines bool
	// Best asks for the highest sum of weight x grade instead of the least total.
	Best bool
	// FixedLimits says that the limits of rows stay as they are; lines that only
	// another limit could call for are then left out.
	FixedLimits bool
	// Keep names slots in which every choice k keeps its best lines, so that a
	// solve may fix or ban one choice of the slot after the other.
	Keep []int
	// Finds are pieces that nobody has yet: they are never held in reserve, and
	// lines with them make no other line needless, so that a solve may ban them.
	Finds []int
	// Shared are pieces that other jobs may lay claim to as well: they have a row even
	// if the slots of this job alone can't use more than there are.
	Shared []int
	// OneForTwo lets two slots hold one spare together, where that is cheaper. It goes
	// neither with Best nor with Keep.
	OneForTwo bool
	// pairsAtMost, with OneForTwo, makes about so many columns for what is shared at
	// most, by taking classes together: the program is then a relaxation, see
	// onefortwo_cells.go. 0: as many as it takes.
	pairsAtMost int
	// GiveUp, if there is one, is asked while the program is made; if it says so, the
	// program is left unfinished.
	GiveUp func() bool
	// base, if there is one, is the program of the same state, or of one in which the
	// choices for some slots alone are others, made with the same options but for
	// Adjust and Beside; differs says for which slots. What the rest needs is taken
	// from it.
	base    *Program
	differs func(slot int) bool
	// Adjust, if there is one, may change the figures of choices before anything is
	// made of them, to ask what another price, breakage or grade would lead to. Such
	// plans are not the state's own, and Check would say so.
	Adjust func(*plan.Choice)
	// Beside puts a copy beside each choice for every one of these that changes its
	// figures, to ask what any of them at best could lead to. Such plans are not the
	// state's own either.
	Beside []Variant
}

// The rows that always exist. Without a limit they bind nothing.
const (
	RowMean = iota
	RowCompletion
	RowBudget
	firstFreeRow
)

// NoLimit as the limit of a row at most, and -NoLimit of one at least, binds
// nothing.
const NoLimit = catalog.MaxSum

// Program is the integer program of a state together with what its columns
// stand for. Group s of the problem is slot s.
type Program struct {
	State   *catalog.State
	Problem *solver.Problem
	Options Options
	Choices [][]plan.Choice // per slot
	Pairs   [][]Pair        // per slot, per column

	wants     wants
	Slots     []*slotChoices
	RowOf     map[int]int             // per piece that has one, its row
	uses      []map[int][]solver.Term // per slot, per piece: for using it as k or f
	gets      map[int][]solver.Term   // per piece: more for using it as k
	spares    []spare                 // with OneForTwo: what two slots may hold together
	sharing   [][]sharedLine          // per slot: of its last lines, what they share
	sameWants bool                    // with a base: its pieces are wanted by the same
	GaveUp    bool                    // it is unfinished: giveUp said so
}

// BuildAll makes it with every line, before any dominance.
func BuildAll(st *catalog.State) *Program { return Compile(st, Options{AllLines: true}) }

// Compile makes the program of a state. Slots may turn out to have no line at
// all; Unfilled then says why, and the problem has no solution.
func Compile(st *catalog.State, opt Options) *Program {
	p := Begin(st, opt)
	p.Complete()
	return p
}

// compile is Compile, given up where the context ends.
func CompileWithin(ctx context.Context, st *catalog.State, opt Options) *Program {
	opt.GiveUp = Over(ctx)
	return Compile(st, opt)
}

// givesUp says whether to leave the program unfinished.
func (p *Program) givesUp() bool {
	p.GaveUp = p.GaveUp || p.Options.GiveUp != nil && p.Options.GiveUp()
	return p.GaveUp
}

// Begin works out the choices and which of them the rules admit.
func Begin(st *catalog.State, opt Options) *Program {
	p := &Program{State: st, Options: opt, Choices: make([][]plan.Choice, len(st.Slots)),
		Problem: &solver.Problem{Uncharged: opt.Best}}
	for s := range st.Slots {
		if p.givesUp() {
			return p
		}
		if !p.fresh(s) {
			p.Choices[s] = opt.base.Choices[s]
			p.Slots = append(p.Slots, opt.base.Slots[s])
			continue
		}
		p.Choices[s] = p.choices(s)
		p.Slots = append(p.Slots, newSlotChoices(st, s, p.Choices[s], opt.Finds))
	}
	return p
}

// Complete makes the lines and all constraints.
func (p *Program) Complete() {
	st := p.State
	p.Pairs = make([][]Pair, len(st.Slots))
	if p.givesUp() {
		return
	}
	p.wants = findWants(st, p.Slots, p.Options)
	p.sameWants = p.Options.base != nil && p.wants.same(&p.Options.base.wants)
	for s, b := range p.Slots {
		if p.sameLines(s) {
			p.Pairs[s] = p.Options.base.Pairs[s]
		} else if p.Pairs[s] = p.linesOf(b); p.givesUp() {
			return
		}
	}
	if p.Options.OneForTwo {
		p.findSpares()
	}
	if !p.GaveUp {
		p.constrain()
	}
}

// constrain makes the columns of the lines and all constraints.
func (p *Program) constrain() {
	st := p.State
	p.uses = make([]map[int][]solver.Term, len(st.Slots))
	for s := range p.uses {
		p.uses[s] = map[int][]solver.Term{}
	}
	p.gets = map[int][]solver.Term{}

	p.meanRow()
	p.completionRow()
	p.budgetRow()
	p.pieceRows()
	p.shareRows()
	p.platerSwitches()
	p.vendorSwitches()
	p.bundleSwitches()
	p.trades()
	if p.columns(); p.GaveUp {
		return
	}
	p.shareGroups()
	p.matches()
}

func (p *Program) linesOf(b *slotChoices) []Pair {
	if p.Options.AllLines {
		return b.lines()
	}
	j := newDominance(p.State, b.slot, p.wants, p.Options)
	return j.prune(b, b.fewerLines(j))
}

// row adds a row and gives its index.
func (p *Program) row(r solver.Row) int {
	p.Problem.Rows = append(p.Problem.Rows, r)
	return len(p.Problem.Rows) - 1
}

// columns makes a group of every slot and a column of every line.
func (p *Program) columns() {
	for s := range p.State.Slots {
		if p.givesUp() {
			return
		}
		if p.sameLines(s) {
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
		if p.Options.OneForTwo {
			p.shareColumns(s, g.Columns)
		}
		p.Problem.Groups = append(p.Problem.Groups, g)
	}
}

// column gathers what every family of constraints says of one line.
func (p *Program) column(s int, pair Pair) solver.Column {
	k, f := p.Line(s, pair)
	c := solver.Column{Cost: int64(pair.Expected), Tie: tieKeys(p.State, k)}
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
	slices.SortFunc(c.Terms, func(a, b solver.Term) int { return a.Row - b.Row })
	c.Needs = p.Needs(k, f)
	if k.InLot() && k.Plate > 0 {
		c.Loads = []solver.Load{{Switch: p.PlaterSwitch(k.Plater), Amount: int64(k.Plate)}}
	}
	return c
}

// Line gives the choices of a pair; f is nil where there is no fallback.
func (p *Program) Line(s int, pair Pair) (k, f *plan.Choice) {
	b := p.Slots[s]
	return b.choice(pair.K), b.choice(pair.F)
}

// tieKeys order lines of equal total: the higher grade, then the lower cash.
func tieKeys(st *catalog.State, k *plan.Choice) [2]int64 {
	return [2]int64{-Weighted(st, k), int64(k.Cash)}
}
