package paper

import (
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
)

// Spare is what a plan leaves unused of a piece.
type Spare struct {
	Piece    int
	Quantity int // how many are left
	Side     catalog.Side
	Vendor   int  // whose it is, catalog.None unless a vendor's
	Trade    int  // the trade it is given in, catalog.None if none
	Paid     bool // it comes out of a bundle that is bought all the same
	Advice   string
}

// Leftover lists the pieces that no line of the plan uses, as planned or in
// reserve, in the state's order, and what to do with each.
func Leftover(pl *plan.Plan) []Spare {
	used := usedOf(pl)
	given := map[int]int{}
	for _, c := range pl.Charges {
		if c.Kind == plan.ChargeTrade {
			given[pl.Of.Trades[c.Of].Give] = c.Of
		}
	}
	bought := boughtBundles(pl)
	var spares []Spare
	for i := range pl.Of.Pieces {
		p := &pl.Of.Pieces[i]
		left := choice.PieceCount(p) - used[i]
		if left <= 0 || p.Gone() {
			continue
		}
		s := Spare{Piece: i, Quantity: left, Side: p.Side, Vendor: choice.VendorOf(p), Trade: catalog.None}
		if t, ok := given[i]; ok {
			s.Trade = t
		}
		s.Paid = slices.Contains(bought, p.Bundle)
		s.Advice = s.advice(pl.Of)
		spares = append(spares, s)
	}
	return spares
}

// usedOf says how many of each piece a plan uses, as planned or in reserve.
func usedOf(pl *plan.Plan) map[int]int {
	used := map[int]int{}
	for i := range pl.Lines {
		l := &pl.Lines[i]
		n := choice.Needed(pl.SlotOf(l))
		used[l.Choice.Piece] += n
		if l.Fallback != nil {
			used[l.Fallback.Piece] += n
		}
		if s := l.Sharing; s != nil && s.With < l.Slot { // one does for both
			used[l.Fallback.Piece] -= min(n, choice.Needed(&pl.Of.Slots[s.With]))
		}
	}
	return used
}

// JobSpare is a piece that none of several plans uses, with a job whose state has it.
type JobSpare struct {
	Job int
	Spare
}

// CommonLeftover lists what several plans leave unused: of the shop's pieces, which each of
// them may use, what is left by all together, each once.
func CommonLeftover(plans []*plan.Plan) []JobSpare {
	used := map[string]int{}
	for _, pl := range plans {
		for i, n := range usedOf(pl) {
			used[pl.Of.Pieces[i].Key()] += n
		}
	}
	var all []JobSpare
	at := map[string]int{}
	for j, pl := range plans {
		for _, s := range Leftover(pl) {
			p := &pl.Of.Pieces[s.Piece]
			if !p.InShop {
				all = append(all, JobSpare{j, s})
				continue
			}
			n, known := at[p.Key()]
			s.Quantity = choice.PieceCount(p) - used[p.Key()]
			switch {
			case s.Quantity <= 0:
			case !known:
				at[p.Key()] = len(all)
				all = append(all, JobSpare{j, s})
			case (s.Paid || s.Trade != catalog.None) && !all[n].Paid: // it is that job that buys or gives it
				all[n] = JobSpare{j, s}
			}
		}
	}
	return all
}

// advice is what a restorer does with a piece that is left. Common practice, no
// published source.
func (s *Spare) advice(st *catalog.State) string {
	p := &st.Pieces[s.Piece]
	switch {
	case p.AtPlater() && p.Stage == catalog.StagePlated:
		return "at " + st.Platers[p.Sent.Plater].ID + ", plated: fetch it and keep it as a spare"
	case p.AtPlater():
		return "at " + st.Platers[p.Sent.Plater].ID + ": take it back, or let him finish and keep it as a spare"
	case s.Trade != catalog.None:
		return "goes out in trade " + st.Trades[s.Trade].ID
	case s.Paid:
		return "comes with the bundle: keep until the set hangs, then sell"
	case s.Side == catalog.Customers:
		return "keep until the set hangs: a junk piece serves as a pattern; then back to the customer"
	case s.Side == catalog.Shops && takenOut(p):
		return "paid for, out of the drawer: keep it as a spare until the set hangs"
	case s.Side == catalog.Shops:
		return "stays in the drawer until the set hangs"
	}
	return "don't buy; ask the seller to hold it until the pieces are back from the plater"
}
