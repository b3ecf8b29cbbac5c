package program

import (
	"brightset/catalog"
	"brightset/model/choice"
	"brightset/solver"
)

// TagTrade marks a trade: its credit and its rows.
func TagTrade(id string) solver.Tag { return solver.Tag("trade " + id) }

// TradeSwitch is the switch of a trade.
func (p *Program) TradeSwitch(t int) int { return p.boxSwitch(len(p.wants.boxes)) + t }

// trades, for every trade t with a switch y that may be on, at a charge of
// -credit:
//
//	y - sum of [k is get] <= 0                  the piece taken is used as planned
//	sum of [k or f is give] + y <= 1            the piece given is gone; of several
//	                                            alike: in each slot by itself
//	sum of y over trades that give one piece <= 1, and over those that take one
//
//	y <= 0, where the piece to give is sold, lost or broken
//
// One piece is given for another, at most once, if that helps.
func (p *Program) trades() {
	for t := range p.State.Trades {
		trade := &p.State.Trades[t]
		sw := solver.Switch{Name: "trade " + trade.ID, Fixed: -int64(trade.Credit), Voluntary: true,
			Tag: TagTrade(trade.ID)}
		get := p.row(solver.Row{Name: sw.Name + " get", Sense: solver.AtMost, Tag: sw.Tag})
		sw.Terms = append(sw.Terms, solver.Term{Row: get, Coef: 1})
		p.gets[trade.Get] = append(p.gets[trade.Get], solver.Term{Row: get, Coef: -1})
		p.given(trade, &sw)
		if p.State.Pieces[trade.Give].Gone() {
			none := p.row(solver.Row{Name: sw.Name + " gone", Sense: solver.AtMost, Tag: sw.Tag})
			sw.Terms = append(sw.Terms, solver.Term{Row: none, Coef: 1})
		}
		p.Problem.Switches = append(p.Problem.Switches, sw)
	}
	p.onceOnly("give", func(t *catalog.Trade) int { return t.Give })
	p.onceOnly("get", func(t *catalog.Trade) int { return t.Get })
}

// given keeps the piece given out of every slot. One that there is only one of stands in
// one slot at most: all slots then share a row, which a relaxation can't get round by
// half a piece in each of two.
func (p *Program) given(trade *catalog.Trade, sw *solver.Switch) {
	shared := choice.PieceCount(&p.State.Pieces[trade.Give]) == 1
	r := -1
	for s := range p.State.Slots {
		if !p.Usable(s, trade.Give) {
			continue
		}
		if r < 0 || !shared {
			name := sw.Name + " give"
			if !shared {
				name += " " + p.State.Slots[s].ID
			}
			r = p.row(solver.Row{Name: name, Sense: solver.AtMost, Limit: 1, Tag: sw.Tag})
			sw.Terms = append(sw.Terms, solver.Term{Row: r, Coef: 1})
		}
		p.use(s, trade.Give, r, 1)
	}
}

// onceOnly adds a row for every piece that stands on one side of several trades.
func (p *Program) onceOnly(side string, piece func(*catalog.Trade) int) {
	for i := range p.State.Pieces {
		var of []int
		for t := range p.State.Trades {
			if piece(&p.State.Trades[t]) == i {
				of = append(of, t)
			}
		}
		if len(of) < 2 {
			continue
		}
		r := p.row(solver.Row{Name: side + " once " + p.State.Pieces[i].Key(), Sense: solver.AtMost, Limit: 1})
		for _, t := range of {
			sw := &p.Problem.Switches[p.TradeSwitch(t)]
			sw.Terms = append(sw.Terms, solver.Term{Row: r, Coef: 1})
		}
	}
}
