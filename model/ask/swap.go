package ask

import (
	"reflect"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
)

// done is what a line does, whichever of several equal pieces it does it with, and in
// whichever slot: two plans that do the same as often are one plan to whoever weighs them,
// though pieces of one bag or equal pieces change places.
type done struct {
	class  int // the first piece equal to the one that is used
	work   string
	plater int
	level  string
	quote  int
}

// swaps knows which pieces are equal.
type swaps struct {
	class []int // per piece
	count []int // per class: how many pieces there are
}

func swapsOf(st *catalog.State) *swaps {
	w := &swaps{class: make([]int, len(st.Pieces)), count: make([]int, len(st.Pieces))}
	named := namedPieces(st)
	bare := make([]catalog.Piece, len(st.Pieces))
	for i := range st.Pieces {
		p := &st.Pieces[i]
		bare[i], w.class[i] = unnamed(p), i
		for j := 0; j < i && !named[i] && p.Stage == 0; j++ {
			if w.class[j] == j && !named[j] && reflect.DeepEqual(bare[i], bare[j]) {
				w.class[i] = j
				break
			}
		}
		w.count[w.class[i]] += choice.PieceCount(p)
	}
	return w
}

// namedPieces are those that a lock, a ban or a trade speaks of by name: they are not
// equal to any other.
func namedPieces(st *catalog.State) []bool {
	named := make([]bool, len(st.Pieces))
	name := func(piece int) {
		if piece != catalog.None {
			named[piece] = true
		}
	}
	for i := range st.Locks {
		name(st.Locks[i].Piece)
	}
	for i := range st.Bans {
		name(st.Bans[i].Piece)
	}
	for i := range st.Trades {
		name(st.Trades[i].Give)
		name(st.Trades[i].Get)
	}
	return named
}

// unnamed is a piece without what only tells it from others and has no part in any
// decision, without how many there are, and without saying where its figures stand in the files.
func unnamed(p *catalog.Piece) catalog.Piece {
	q := *p
	q.ID, q.InShop, q.InBoth, q.From = "", false, false, catalog.Origin{}
	q.Name, q.Tag, q.Place, q.Marks, q.Note, q.Protect, q.Photos, q.Hardware = "", "", "", "", "", "", nil, nil
	q.Quantity, q.Unpriced = 0, false
	q.Days, q.Grade, q.Tone, q.Fresh = plain(p.Days), plain(p.Grade), plain(p.Tone), plain(p.Fresh)
	q.Findings, q.Fit, q.Quotes = nil, nil, nil
	for _, f := range p.Findings {
		f.From, f.Harmless = catalog.Origin{}, plain(f.Harmless)
		q.Findings = append(q.Findings, f)
	}
	for _, f := range p.Fit {
		f.From = catalog.Origin{}
		q.Fit = append(q.Fit, f)
	}
	for _, t := range p.Quotes {
		t.ID, t.From = "", catalog.Origin{}
		t.Breakage, t.Refused, t.Grade, t.Tone = plain(t.Breakage), plain(t.Refused), plain(t.Grade), plain(t.Tone)
		t.Fresh, t.Days, t.Low, t.High, t.Date, t.Known = plain(t.Fresh), plain(t.Days), plain(t.Low), plain(t.High),
			plain(t.Date), plain(t.Known)
		q.Quotes = append(q.Quotes, t)
	}
	return q
}

func plain[T any](v catalog.Val[T]) catalog.Val[T] { return catalog.Val[T]{V: v.V, Set: v.Set} }

func (w *swaps) done(c *plan.Choice) done {
	return done{w.class[c.Piece], c.Work, c.Plater, c.Level, c.Quote}
}

// times is how often a plan does each thing.
func (w *swaps) times(x *plan.Plan) map[done]int {
	n := map[done]int{}
	for i := range x.Lines {
		n[w.done(x.Lines[i].Choice)]++
	}
	return n
}

// unmatched gives the slots of each of two plans that are left when every line of one is
// set against one of the other that does the same, of the same slot where it can be.
func (w *swaps) unmatched(x, y *plan.Plan) (ofX, ofY []int) {
	left := w.times(x)
	var moved []int
	for s := range y.Lines {
		if k := w.done(y.Lines[s].Choice); k == w.done(x.Lines[s].Choice) {
			left[k]--
		} else {
			moved = append(moved, s)
		}
	}
	for _, s := range moved {
		if k := w.done(y.Lines[s].Choice); left[k] > 0 {
			left[k]--
		} else {
			ofY = append(ofY, s)
		}
	}
	for s := range x.Lines {
		if k := w.done(x.Lines[s].Choice); left[k] > 0 && k != w.done(y.Lines[s].Choice) {
			left[k]--
			ofX = append(ofX, s)
		}
	}
	return ofX, ofY
}
