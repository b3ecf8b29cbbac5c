package paper

import (
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
)

// Todo lists what a plan asks to be done next, in an order that works.
func Todo(pl *plan.Plan) []Act {
	t := &todo{pl: pl, st: pl.Of}
	t.waiting()
	t.beforehand()
	t.purchases()
	t.works()
	t.rest()
	slices.SortStableFunc(t.acts, func(a, b Act) int { return int(a.Kind) - int(b.Kind) })
	return t.acts
}

type todo struct {
	st   *catalog.State
	pl   *plan.Plan
	acts []Act
}

// add puts a piece for a slot (catalog.None for none) on the list of an act with the same
// person, which is begun if there is none yet.
func (t *todo) add(with Act, piece, slot, count int, cents catalog.Cents, guess bool) *Act {
	at := slices.IndexFunc(t.acts, func(a Act) bool {
		return a.Kind == with.Kind && a.Plater == with.Plater && a.Maker == with.Maker &&
			a.Side == with.Side && a.Vendor == with.Vendor && a.Trade == with.Trade
	})
	if at < 0 {
		t.acts = append(t.acts, with)
		at = len(t.acts) - 1
	}
	a := &t.acts[at]
	a.Count += count
	a.Cents += cents
	a.Guess = a.Guess || guess
	if !slices.Contains(a.Pieces, piece) {
		a.Pieces, a.For = append(a.Pieces, piece), append(a.For, slot)
	}
	if slot != catalog.None && !slices.Contains(a.Slots, slot) {
		a.Slots = append(a.Slots, slot)
	}
	return a
}

// lineOf is the line whose choice uses a piece, nil where none does.
func (t *todo) lineOf(piece int) *plan.Line {
	for i := range t.pl.Lines {
		if l := &t.pl.Lines[i]; l.Choice.Piece == piece {
			return l
		}
	}
	return nil
}

// inReserve says whether some line falls back on a piece.
func (t *todo) inReserve(piece int) bool {
	return slices.ContainsFunc(t.pl.Lines,
		func(l plan.Line) bool { return l.Fallback != nil && l.Fallback.Piece == piece })
}

// waiting: what lies with platers. A piece that is held in reserve stays as it is until it
// is needed, and is neither stopped nor gone on with: if he waits for an answer, he is to wait on.
func (t *todo) waiting() {
	for i := range t.st.Pieces {
		p := &t.st.Pieces[i]
		line := t.lineOf(i)
		slot := catalog.None
		if line != nil {
			slot = line.Slot
		}
		if p.Bare() && !p.AtPlater() && !p.Gone() {
			t.add(nobodys(ActShelve), i, slot, choice.PieceCount(p), 0, false)
		}
		if !p.AtPlater() || p.Gone() {
			continue
		}
		act := nobodys(ActRecall)
		act.Plater = p.Sent.Plater
		cents := catalog.Cents(0)
		switch {
		case p.Stage == catalog.StagePlated:
			act.Kind = ActFetch
		case line == nil && t.inReserve(i) && p.Stage == catalog.StagePriced:
			act.Kind = ActPause
		case line == nil && t.inReserve(i):
			continue
		case p.Stage == catalog.StagePriced && line != nil:
			act.Kind, cents = ActApprove, line.Choice.Plate
		case p.Stage == catalog.StagePriced:
			act.Kind = ActStop
		case line != nil || p.Stage == catalog.StageApproved:
			if p.Overdue(t.st) <= 0 {
				continue
			}
			act.Kind = ActChase
		}
		t.add(act, i, slot, p.Sent.Count, cents, false)
	}
}

// beforehand: what is to be known before money goes out.
func (t *todo) beforehand() {
	for i := range t.pl.Lines {
		l := &t.pl.Lines[i]
		c := l.Choice
		p := &t.st.Pieces[c.Piece]
		if p.Stage != catalog.StageSeen || p.AtPlater() {
			continue
		}
		if c.InLot() && here(p) && !p.FittedIn(l.Slot) {
			t.add(nobodys(ActTryOn), c.Piece, l.Slot, choice.Needed(&t.st.Slots[l.Slot]), 0, false)
		}
	}
}

// here says whether a piece can be held in the hand today: the customer's and the drawers'.
func here(p *catalog.Piece) bool {
	return p.Side != catalog.Vendors && p.Chance >= catalog.One && !(p.Days.Set && p.Days.V > 0)
}

// quoted says whether a plater has named a firm price for what a choice has done.
func (t *todo) quoted(c *plan.Choice) bool {
	return c.Quote != catalog.None && t.st.Pieces[c.Piece].Quotes[c.Quote].Firm != catalog.Estimate
}

// purchases: what is worked on before it hangs is bought first.
func (t *todo) purchases() {
	for _, buy := range Purchases(t.pl) {
		first := slices.ContainsFunc(t.pl.Lines, func(l plan.Line) bool {
			worked := l.Choice.Work != catalog.WorkAsIs || len(l.Choice.Parts) > 0
			return worked && (slices.Contains(buy.Lines, l.Slot) || slices.Contains(buy.Bundles, t.pl.PieceOf(l.Choice).Bundle))
		})
		act := nobodys(ActBuy)
		if first {
			act.Kind = ActBuyFirst
		}
		act.Side, act.Vendor = buy.Side, buy.Vendor
		gone := catalog.Cents(0) // for pieces that are out of the drawer already
		for _, i := range buy.Lines {
			l := &t.pl.Lines[i]
			if buy.Side == catalog.Shops && t.st.Pieces[l.Choice.Piece].AtPlater() {
				gone += l.Choice.Get
				continue
			}
			t.add(act, l.Choice.Piece, l.Slot, choice.Needed(&t.st.Slots[l.Slot]), 0, false)
		}
		many := plan.BundlesOf(t.st, t.pl.Lines)
		for _, b := range buy.Bundles {
			for i := range t.st.Pieces {
				if t.st.Pieces[i].Bundle == b {
					n := choice.PieceCount(&t.st.Pieces[i])
					if box := t.st.Bundles[b].Box; box > 0 {
						n = box * many[b]
					}
					t.add(act, i, catalog.None, n, 0, false).boxes(t.st, i, many[b])
				}
			}
		}
		n := len(t.acts) - 1
		if n >= 0 && t.acts[n].Kind == act.Kind && t.acts[n].Vendor == act.Vendor && t.acts[n].Side == act.Side {
			t.acts[n].Cents = buy.Total - gone
		}
	}
}

// beforePlating are the works of a choice that makers and the shop do before its pieces go
// to a plater, or in his stead: what is plated is finished and fitted when it is back.
func beforePlating(st *catalog.State, c *plan.Choice) []plan.Part {
	return slices.DeleteFunc(slices.Clone(c.Parts), func(p plan.Part) bool {
		return p.Doer == plan.ByPlater || c.Plated() && !choice.GoesBefore(st, p)
	})
}

// works: makers, the shop's own bench, lots.
func (t *todo) works() {
	for i := range t.pl.Lines {
		l := &t.pl.Lines[i]
		n := choice.Needed(&t.st.Slots[l.Slot])
		parts := beforePlating(t.st, l.Choice)
		for k, part := range parts {
			count := n
			if slices.ContainsFunc(parts[:k], func(o plan.Part) bool { return o.Doer == part.Doer && o.Maker == part.Maker }) {
				count = 0 // one more work on the same pieces
			}
			act := nobodys(ActBench)
			if part.Doer == plan.ByMaker {
				act = nobodys(ActMake)
				act.Maker = part.Maker
			}
			t.add(act, l.Choice.Piece, l.Slot, count, part.Cost, part.Doer == plan.ByMaker)
		}
	}
	for _, lot := range Lots(t.pl) {
		act := nobodys(ActSend)
		act.Plater = lot.Plater
		for _, i := range lot.Lines {
			l := &t.pl.Lines[i]
			t.add(act, l.Choice.Piece, l.Slot, choice.Needed(&t.st.Slots[l.Slot]), 0, !t.quoted(l.Choice))
		}
		t.acts[len(t.acts)-1].Cents = lot.Total
	}
}

// rest: trades, what is to be held, what can hang today.
func (t *todo) rest() {
	for _, c := range t.pl.Charges {
		if c.Kind == plan.ChargeTrade {
			act := nobodys(ActTrade)
			act.Trade = c.Of
			t.add(act, t.st.Trades[c.Of].Give, catalog.None, 1, c.Cents, false)
		}
	}
	for i := range t.pl.Lines {
		l := &t.pl.Lines[i]
		n := choice.Needed(&t.st.Slots[l.Slot])
		if f := l.Fallback; f != nil {
			if p := &t.st.Pieces[f.Piece]; p.Side == catalog.Vendors && p.Bundle == catalog.None {
				act := nobodys(ActHold)
				act.Vendor = p.Vendor
				t.add(act, f.Piece, l.Slot, n, 0, false)
			}
		}
		if p := &t.st.Pieces[l.Choice.Piece]; p.Stage != catalog.StageHung && t.canHang(l.Choice, p) {
			t.add(nobodys(ActHang), l.Choice.Piece, l.Slot, n, 0, false)
		}
	}
}

// canHang says whether nothing has to be done to a piece any more, and it is here.
func (t *todo) canHang(c *plan.Choice, p *catalog.Piece) bool {
	return c.Work == catalog.WorkAsIs && !p.AtPlater() &&
		(p.Stage == catalog.StageBack || p.Side == catalog.Customers && here(p))
}
