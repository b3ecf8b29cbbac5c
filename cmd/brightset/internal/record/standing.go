package record

import (
	"brightset/catalog"
	"brightset/catalog/event"
	"brightset/model/choice"
)

// namedBefore notes, on every price that was named for a piece, which findings it was named
// for, before one is added.
func (b *builder) namedBefore(i int) {
	known := []any{}
	for _, f := range b.st.Pieces[i].Findings {
		known = append(known, f.ID)
	}
	note := func(part event.Table, name ...string) {
		if shop, target := b.below(i, part, name...); b.d.Value(shop, target, event.KeyKnown) == nil {
			b.set(shop, target, event.KeyKnown, known)
		}
	}
	if b.st.Pieces[i].AtPlater() {
		note(event.TableSent)
	}
	for _, q := range b.st.Pieces[i].Quotes {
		note(event.TableQuote, q.ID)
	}
}

// standing are the terms of a piece at a plater's with what has come to light since it
// was sent; those it went on where he can't go on with it at all.
func (b *builder) standing(i int) catalog.Quote {
	terms, _ := choice.Standing(b.st, b.standsFor(i), i)
	return terms
}

// standsFor is the slot a piece is for as far as anybody knows: where the kept plan has it,
// else the first it fits.
func (b *builder) standsFor(i int) int {
	if kept := b.keptFor(i); len(kept) > 0 {
		return kept[0]
	}
	return b.st.Pieces[i].Fits[0]
}

// settle makes the terms as they stand those that he was told: from now on he knows of
// all there is.
func (b *builder) settle(i int, terms *catalog.Quote) {
	shop, target := b.below(i, event.TableSent)
	b.set(shop, target, event.KeyCost, catalog.FormatMoney(terms.Cost))
	if !b.st.Pieces[i].Sent.Known.Set {
		return
	}
	b.set(shop, target, event.KeyBreakage, value(catalog.FormatMicro(terms.Breakage.Or(0))))
	b.set(shop, target, event.KeyGrade, value(catalog.FormatCenti(terms.Grade.V)))
	b.set(shop, target, event.KeyKnown, nil)
}
