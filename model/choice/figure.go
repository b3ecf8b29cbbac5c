package choice

import (
	"slices"

	"brightset/catalog"
	"brightset/model/plan"
)

// Figure is what a decision may turn on.
type Figure string

const (
	FigurePlating  Figure = "plating"  // the plater's part of the price, cents
	FigurePrice    Figure = "price"    // what the piece costs to have, cents
	FigureBreakage Figure = "breakage" // the chance of breaking in the work, millionths
	FigureGrade    Figure = "grade"    // after the work, hundredths
)

// Lever is a figure of a choice as it stands in the files: of one piece of the bag, and
// before any fitting to a slot. There it stands once, so to move it moves it in every
// slot that the piece fits; and a price, or a grade given by eye, in whatever else can be
// done with the piece too. What is derived from the trade tables, or agreed with the
// plater who has the piece, is moved as a quote or a closer look would, for this choice, in
// every slot; a price by as much in each.
type Lever struct {
	choice *plan.Choice
	figure Figure
	Now    int64
}

// LeverOf finds the figure a choice has of a kind.
func LeverOf(st *catalog.State, c *plan.Choice, f Figure) Lever {
	l := Lever{choice: c, figure: f}
	d := draftOf(st, c)
	switch f {
	case FigurePlating:
		l.Now = int64(d.plate)
	case FigurePrice:
		l.Now = int64(st.Pieces[c.Piece].Price)
	case FigureBreakage:
		l.Now = int64(d.breakage)
	case FigureGrade:
		l.Now = int64(d.grade)
	}
	return l
}

// draftOf is a choice before it is fitted and multiplied.
func draftOf(st *catalog.State, c *plan.Choice) (d draft) {
	switch {
	case c.Sent:
		d, _ = sentDraft(st, c.Slot, c.Piece)
	case c.Work == catalog.WorkAsIs:
		d, _ = asIsDraft(st, c.Piece)
		d.finish(st, c.Slot, c.Piece)
	case c.Work == catalog.WorkClean:
		d, _ = cleanDraft(st, c.Slot, c.Piece)
		d.finish(st, c.Slot, c.Piece)
	case c.Quote != catalog.None:
		d, _ = quoted(st, c.Slot, c.Piece, c.Quote)
	default:
		level := slices.IndexFunc(st.Platers[c.Plater].Levels, func(l catalog.Level) bool { return l.Name == c.Level })
		e, _ := estimated(st, c.Slot, c.Piece, c.Plater, level)
		d = e.draft(st, c.Piece, c.Plater)
	}
	return d
}

// Furthest is the last value the files take, in the direction of higher or lower ones.
// Of money it is less where so many pieces at the highest price are more than any sum
// may be.
func (l *Lever) Furthest(st *catalog.State, higher bool) int64 {
	if !higher {
		return 0
	}
	switch l.figure {
	case FigureBreakage:
		return int64(catalog.One)
	case FigureGrade:
		return int64(catalog.MaxGrade)
	}
	n := int64(0)
	for s := range st.Slots {
		if FitsSlot(&st.Pieces[l.choice.Piece], s) {
			n += int64(Needed(&st.Slots[s]))
		}
	}
	if st.Job.BudgetOn == catalog.OnQuote { // which counts in parts of a cent, with markups
		n *= 2 * st.Quote.Unit()
	}
	return max(l.Now, min(int64(catalog.MaxMoney), catalog.MaxSum/8/n))
}

// Moved is the state with the figure at a value; and what is to be changed in its choices
// besides, where the files don't hold the figure; nil for nothing.
func (l *Lever) Moved(st *catalog.State, v int64) (*catalog.State, func(*plan.Choice)) {
	c := l.choice
	out := st.Clone()
	p := &out.Pieces[c.Piece]
	switch {
	case l.figure == FigurePrice:
		p.Price = catalog.Cents(v)
	case c.Quote != catalog.None:
		put(l.figure, v, &p.Quotes[c.Quote])
	case l.figure == FigureGrade && c.Work == catalog.WorkAsIs:
		p.Grade = catalog.Val[catalog.Centi]{V: catalog.Centi(v), Set: true, From: p.Grade.From}
	default:
		return st, func(k *plan.Choice) {
			if plan.SameChoice(k, c) {
				l.adjust(st, k, v)
			}
		}
	}
	return out, nil
}

func put(f Figure, v int64, q *catalog.Quote) {
	switch f {
	case FigurePlating:
		q.Cost = catalog.Cents(v)
	case FigureBreakage:
		q.Breakage.V, q.Breakage.Set = catalog.Micro(v), true
	case FigureGrade:
		q.Grade.V, q.Grade.Set = catalog.Centi(v), true
	}
}

// adjust moves the figure in a choice for one slot, which may need several pieces or have
// this one fitted.
func (l *Lever) adjust(st *catalog.State, k *plan.Choice, v int64) {
	n := Needed(&st.Slots[k.Slot])
	fit := Fitting(&st.Pieces[k.Piece], k.Slot)
	switch l.figure {
	case FigurePlating:
		k.Plate = max(0, k.Plate+catalog.Cents(n)*catalog.Cents(v-l.Now))
	case FigureBreakage:
		b := catalog.Micro(v)
		if fit != nil {
			b = catalog.Either(b, fit.Breakage)
		}
		k.Breakage = repeated(b, n)
	case FigureGrade:
		if k.Grade = catalog.Centi(v); fit != nil {
			k.Grade = min(k.Grade, fit.Cap)
		}
	}
}
