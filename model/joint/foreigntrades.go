package joint

import (
	"slices"

	"brightset/catalog"
	"brightset/solver"
)

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
