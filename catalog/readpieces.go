package catalog

import (
	"fmt"
	"slices"
)

// readPieces reads [piece.NAME] of the job's file, of what it includes and of the
// shop's file, in this order. A piece of the shop's that fits no slot of the job
// is left out.
func (l *loader) readPieces() {
	var later []*table
	for _, root := range slices.Concat([]*table{l.job}, l.parts, []*table{l.shop}) {
		if root == nil {
			continue
		}
		ids := l.jobPieces
		if root == l.shop {
			ids = l.shopPieces
		}
		for _, t := range root.named("piece") {
			if t.addsOnly() && slices.Contains(l.parts, root) {
				later = append(later, t)
				continue
			}
			if at, ok := ids[t.id]; ok {
				l.addToPiece(t, &l.state.Pieces[at])
				t.done()
				continue
			}
			p := l.readPiece(t, root == l.shop)
			t.done()
			if p.InShop && len(p.Fits) == 0 {
				l.keptOut[t.id] = true
				continue
			}
			ids[t.id] = len(l.state.Pieces)
			l.state.Pieces = append(l.state.Pieces, p)
		}
	}
	for _, t := range later {
		l.addLater(t)
	}
	for id, i := range l.jobPieces {
		if k, again := l.shopPieces[id]; again {
			l.state.Pieces[i].InBoth, l.state.Pieces[k].InBoth = true, true
		}
	}
}

// addsOnly says whether a piece's table holds nothing but findings and quotes.
func (t *table) addsOnly() bool {
	for k := range t.m {
		if k != "finding" && k != "quote" {
			return false
		}
	}
	return len(t.m) > 0
}

// addLater reads what an included file adds to a piece of the job's, whichever
// file that is in.
func (l *loader) addLater(t *table) {
	_, inShop := l.shopPieces[t.id]
	at, ok := l.jobPieces[t.id]
	switch {
	case ok:
		l.addToPiece(t, &l.state.Pieces[at])
		t.done()
	case inShop || l.keptOut[t.id]:
		t.wrongHere(fmt.Sprintf("piece %q is in the shop's file", clip(t.id)), "write its findings and quotes there")
	case !l.partial:
		var known []string
		for i := range l.state.Pieces {
			if p := &l.state.Pieces[i]; !p.InShop {
				known = append(known, p.ID)
			}
		}
		t.wrongHere(fmt.Sprintf("no piece of the job is called %q", clip(t.id)),
			l.meant(t.id, known, "first write the piece itself: its kind and metal and what it fits"))
	}
}

// addToPiece reads findings and quotes that an included file adds to a piece of
// another file. Anything else would be a second piece of the same name.
func (l *loader) addToPiece(t *table, p *Piece) {
	for _, key := range t.keys() {
		if key != "finding" && key != "quote" {
			t.wrongHere(fmt.Sprintf("piece %q is written twice, first in %s", t.id, p.From),
				"give one of the two another name; only findings and quotes can be added to a piece")
			for _, k := range t.keys() {
				t.raw(k)
			}
			return
		}
	}
	twice := func(sub *table, from Origin) {
		sub.wrongHere(fmt.Sprintf("%s of piece %q is written twice, first in %s", sub.what, t.id, from),
			"give one of the two another name")
	}
	for _, sub := range t.named("finding") {
		f := l.readFinding(sub, p.Metal)
		if i := slices.IndexFunc(p.Findings, func(g Finding) bool { return g.ID == f.ID }); i >= 0 {
			twice(sub, p.Findings[i].From)
		}
		p.Findings = append(p.Findings, f)
	}
	for _, sub := range t.named("quote") {
		q := l.readQuote(sub, p, p.Metal == None)
		if i := slices.IndexFunc(p.Quotes, func(g Quote) bool { return g.ID == q.ID }); i >= 0 {
			twice(sub, p.Quotes[i].From)
		}
		p.Quotes = append(p.Quotes, q)
	}
}

func (l *loader) readPiece(t *table, inShop bool) Piece {
	p := Piece{
		ID: t.id, InShop: inShop, Name: t.nameOr(t.id),
		Tag: t.text("tag"), Place: t.text("place"), Marks: t.text("marks"), Note: t.text("note"),
		Photos: t.texts("photos"), Off: t.flag("off").V,
		Tried: t.flag("tried").V, Hardware: t.texts("hardware"),
		Protect: t.text("protect"),
		Metal:   None, Vendor: None, Bundle: None,
		Quantity: t.whole("quantity", 1, MaxQuantity).Or(1),
		Chance:   t.share("chance").Or(One), Days: t.whole("days", 0, MaxDays),
		Grade: t.grade("grade"), Tone: t.tone("tone"), Fresh: t.flag("fresh"),
		Weak: t.flag("weak").V,
		From: t.here(),
	}
	p.Fits, p.Fit = l.readFits(t, inShop)
	p.Fitted = l.readFitted(t, &p)
	if t.need("kind", `write kind = "original", "old-stock" or "reproduction"`) {
		p.Kind = Kind(t.word("kind", string(Original), string(OldStock), string(Reproduction)))
	}
	if t.need("metal", `write metal = "steel" or another of the metal table, or "unknown"`) &&
		!t.says("metal", "unknown") {
		p.Metal = t.ref("metal", l.metals)
	}
	if !inShop { // the shop's may lie with another job
		l.lookForPhotos(t, &p)
	}
	l.readOwner(t, &p)
	l.readBox(t, &p)
	l.readStage(t, &p)
	p.arrive()
	for _, sub := range t.named("finding") {
		p.Findings = append(p.Findings, l.readFinding(sub, p.Metal))
	}
	for _, sub := range t.named("quote") {
		p.Quotes = append(p.Quotes, l.readQuote(sub, &p, t.says("metal", "unknown")))
	}
	return p
}
