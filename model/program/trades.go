package program

import (
	"slices"

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
//	sum of y over trades that take a piece - sum of [k is that piece] <= 0
//	sum of [k or f is a piece] + sum of y over trades that give it <= 1
//	y <= 0, where the piece to give is sold, lost or broken
//
// One piece is given for another, at most once, if that helps: the piece taken is used as
// planned, the one given is gone. Of several alike, what is given may not stand in any slot, which
// is a row for each, and one of them is taken at most.
func (p *Program) trades() {
	for t := range p.State.Trades {
		trade := &p.State.Trades[t]
		sw := solver.Switch{Name: "trade " + trade.ID, Fixed: -int64(trade.Credit), Voluntary: true,
			Tag: TagTrade(trade.ID)}
		if p.State.Pieces[trade.Give].Gone() {
			none := p.row(solver.Row{Name: sw.Name + " gone", Sense: solver.AtMost, Tag: sw.Tag})
			sw.Terms = append(sw.Terms, solver.Term{Row: none, Coef: 1})
		}
		p.Problem.Switches = append(p.Problem.Switches, sw)
	}
	p.givenRow = map[int]int{}
	for _, piece := range p.inTrades(func(t *catalog.Trade) int { return t.Get }) {
		p.taken(piece)
	}
	for _, piece := range p.inTrades(func(t *catalog.Trade) int { return t.Give }) {
		p.given(piece)
	}
}

// inTrades are the pieces on one side of trades, rising.
func (p *Program) inTrades(side func(*catalog.Trade) int) (pieces []int) {
	for t := range p.State.Trades {
		pieces = append(pieces, side(&p.State.Trades[t]))
	}
	slices.Sort(pieces)
	return slices.Compact(pieces)
}

// taken lets trades take a piece where a line plans it.
func (p *Program) taken(piece int) {
	key := p.State.Pieces[piece].Key()
	r := p.row(solver.Row{Name: "taken " + key, Sense: solver.AtMost})
	p.gets[piece] = append(p.gets[piece], solver.Term{Row: r, Coef: -1})
	p.inRow(r, func(t *catalog.Trade) bool { return t.Get == piece })
	if choice.PieceCount(&p.State.Pieces[piece]) > 1 {
		once := p.row(solver.Row{Name: "taken once " + key, Sense: solver.AtMost, Limit: 1})
		p.inRow(once, func(t *catalog.Trade) bool { return t.Get == piece })
	}
}

// given keeps a piece that a trade gives out of every slot. One that there is only one of stands in
// one slot at most: all slots then share a row, which a relaxation can't get round by
// half a piece in each of two.
func (p *Program) given(piece int) {
	gives := func(t *catalog.Trade) bool { return t.Give == piece }
	name := "given " + p.State.Pieces[piece].Key()
	shared := choice.PieceCount(&p.State.Pieces[piece]) == 1
	r := -1
	for s := range p.State.Slots {
		if !p.Usable(s, piece) {
			continue
		}
		if r < 0 || !shared {
			in := name
			if !shared {
				in += " " + p.State.Slots[s].ID
			}
			r = p.row(solver.Row{Name: in, Sense: solver.AtMost, Limit: 1})
			p.inRow(r, gives)
		}
		p.use(s, piece, r, 1)
	}
	if shared && r >= 0 {
		p.givenRow[piece] = r
	}
	if r < 0 {
		p.inRow(p.row(solver.Row{Name: name, Sense: solver.AtMost, Limit: 1}), gives)
	}
}

// inRow counts trades in a row.
func (p *Program) inRow(row int, which func(*catalog.Trade) bool) {
	for t := range p.State.Trades {
		if which(&p.State.Trades[t]) {
			sw := &p.Problem.Switches[p.TradeSwitch(t)]
			sw.Terms = append(sw.Terms, solver.Term{Row: row, Coef: 1})
		}
	}
}
