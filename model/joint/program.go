package joint

import (
	"context"
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
	"brightset/solver/parallel"
)

// Program is the integer program of several jobs of one shop:
//
//	minimise   sum over jobs of the lines' E, less the credits of its trades
//	         + freight, minimum, vendor's freight and bundle price of the shop's platers,
//	           vendors and bundles, once for all jobs that call for them
//	so that  every job keeps all its own rules
//	         a piece of the shop's is used at most `quantity` times over all jobs
//	         a piece of the shop's that a job's trade gives is nobody's k or f
//	         a job's budget holds even if it has to pay all it calls for by itself
//
// The last rule keeps an owner within his budget however the charges are split, and
// also if another job comes to nothing.
type Program struct {
	Jobs    []*program.Program
	Problem *solver.Problem

	shares bool    // lots and bundles are shared; without, each job pays its own
	first  []int   // per job, its first group
	sw     [][]int // per job and switch of its own program, the one that is in the total
	common []common
}

// common is a plater, vendor or bundle of the shop's that several jobs may call for.
type common struct {
	kind plan.ChargeKind // of its fixed charge
	id   string
	of   []int // per job, its index in the job's state
}

// NewProgram puts the programs of several jobs of one shop together; it is left unfinished
// where the context ends first. Jobs of different shops share nothing; see catalog.SameShop.
func NewProgram(ctx context.Context, jobs []*catalog.State) *Program {
	return newProgram(jobs, program.Options{FixedLimits: true, GiveUp: program.Over(ctx)})
}

func newProgram(jobs []*catalog.State, opt program.Options) *Program {
	t := &Program{shares: true, Jobs: make([]*program.Program, len(jobs))}
	parallel.All(len(jobs), len(jobs), func(j int) { t.Jobs[j] = program.Begin(jobs[j], opt) })
	if t.gaveUp() {
		return t
	}
	for key := range t.contested() {
		for _, p := range t.Jobs {
			if i := pieceAt(p.State, key); i != catalog.None {
				p.Options.Shared = append(p.Options.Shared, i)
			}
		}
	}
	parallel.All(len(jobs), len(jobs), func(j int) {
		slices.Sort(t.Jobs[j].Options.Shared)
		t.Jobs[j].Complete()
	})
	if !t.gaveUp() {
		t.assemble()
	}
	return t
}

// gaveUp says whether it is unfinished, because some job's program is.
func (t *Program) gaveUp() bool {
	return slices.ContainsFunc(t.Jobs, func(p *program.Program) bool { return p.GaveUp })
}

// Apart is the same but for one thing: no job shares a charge with another. It is what
// the jobs come to if each is sent, bought and paid for by itself out of one stock.
func (t *Program) Apart() *Program {
	a := &Program{Jobs: t.Jobs}
	a.assemble()
	return a
}

// contested are the keys of the shop's pieces that more than one job lays claim to, and
// of which there are not enough for all.
func (t *Program) contested() map[string]bool {
	claims, jobs, count := map[string]int{}, map[string]int{}, map[string]int{}
	traded := map[string]bool{}
	for _, p := range t.Jobs {
		st, most := p.State, program.MostUsed(p.State, p.Slots)
		for _, tr := range st.Trades {
			for _, i := range []int{tr.Give, tr.Get} {
				traded[st.Pieces[i].Key()] = true
				most[i]++
			}
		}
		for i, n := range most {
			if piece := &st.Pieces[i]; n > 0 && piece.InShop {
				claims[piece.Key()] += n
				jobs[piece.Key()]++
				count[piece.Key()] = choice.PieceCount(piece)
			}
		}
	}
	out := map[string]bool{}
	for key, n := range claims {
		if jobs[key] > 1 && (n > count[key] || traded[key]) {
			out[key] = true
		}
	}
	return out
}

// pieceAt is the index of a piece by its key, catalog.None where there is none.
func pieceAt(st *catalog.State, key string) int {
	return slices.IndexFunc(st.Pieces, func(p catalog.Piece) bool { return p.Key() == key })
}

// findCommon lists what of the shop's platers, vendors and bundles several jobs have in
// common. What stands in a job's own file is that job's alone; so is the freight of a
// vendor who does, though a bundle of the shop's that he sells is bought once.
func (t *Program) findCommon() {
	at := map[string]int{}
	note := func(job int, kind plan.ChargeKind, id string, of int, from catalog.Origin) {
		if from.Source == catalog.JobFile {
			return
		}
		key := string(kind) + " " + id
		c, known := at[key]
		if !known {
			c = len(t.common)
			at[key] = c
			of := make([]int, len(t.Jobs))
			for j := range of {
				of[j] = catalog.None
			}
			t.common = append(t.common, common{kind, id, of})
		}
		t.common[c].of[job] = of
	}
	for j, p := range t.Jobs {
		for q := range p.State.Platers {
			note(j, plan.ChargePlaterFreight, p.State.Platers[q].ID, q, p.State.Platers[q].From)
		}
		for v := range p.State.Vendors {
			note(j, plan.ChargeVendorFreight, p.State.Vendors[v].ID, v, p.State.Vendors[v].From)
		}
		for b := range p.State.Bundles {
			note(j, plan.ChargeBundle, p.State.Bundles[b].ID, b, p.State.Bundles[b].From)
		}
	}
	t.common = slices.DeleteFunc(t.common, func(c common) bool {
		n := 0
		for _, of := range c.of {
			if of != catalog.None {
				n++
			}
		}
		return n < 2
	})
}

// switchOf is the switch of a common thing in a job's own program.
func switchOf(p *program.Program, kind plan.ChargeKind, of int) int {
	switch kind {
	case plan.ChargePlaterFreight:
		return p.PlaterSwitch(of)
	case plan.ChargeVendorFreight:
		return p.VendorSwitch(of)
	}
	return p.BundleSwitch(of)
}
