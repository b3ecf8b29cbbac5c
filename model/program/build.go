package program

import (
	"brightset/catalog"
	"brightset/model/plan"
	"brightset/solver"
)

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
	steady    *steady
	Slots     []*slotChoices
	RowOf     map[int]int             // per piece that has one, its row
	BoxRowOf  map[int]int             // per piece sold by the box, more than one of which may be used, its row
	givenRow  map[int]int             // per piece that there is one of and a trade gives, the row that all slots share
	uses      []map[int][]solver.Term // per slot, per piece: for using it as k or f
	gets      map[int][]solver.Term   // per piece: more for using it as k
	spares    []spare                 // with SharedSpares: what two slots may hold together
	sharing   [][]sharedLine          // per slot: of its last lines, what they share
	oneBeside int                     // the row of what stands beside the choices; catalog.None
	sameWants bool                    // with a base: its pieces are wanted by the same
	GaveUp    bool                    // it is unfinished: Options.GiveUp said so
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

// givesUp says whether to leave the program unfinished.
func (p *Program) givesUp() bool {
	p.GaveUp = p.GaveUp || p.Options.GiveUp != nil && p.Options.GiveUp()
	return p.GaveUp
}

// Begin works out the choices and which of them the rules admit.
func Begin(st *catalog.State, opt Options) *Program {
	p := &Program{State: st, Options: opt, Choices: make([][]plan.Choice, len(st.Slots)), steady: newSteady(st),
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
		var variant []int32
		p.Choices[s], variant = p.choices(s)
		p.Slots = append(p.Slots, newSlotChoices(st, s, p.Choices[s], opt.Finds, p.steady))
		p.Slots[s].variant = variant
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
	if p.Options.SharedSpares {
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
	p.boxRows()
	p.trades()
	p.markedSwitches()
	p.besideRow()
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
	j := newDominance(p.State, b.slot, p.wants, p.Options, p.steady)
	return j.prune(b, b.fewerLines(j))
}

// row adds a row and gives its index.
func (p *Program) row(r solver.Row) int {
	p.Problem.Rows = append(p.Problem.Rows, r)
	return len(p.Problem.Rows) - 1
}
