package report

import (
	"time"

	"brightset/catalog"
	"brightset/model/paper"
	"brightset/model/plan"
)

// lotDoc is what goes to one plater.
type lotDoc struct {
	Plater  string        `json:"plater"`
	Name    string        `json:"name"`
	Pieces  int           `json:"pieces"`
	Work    catalog.Cents `json:"work_cents"`
	Minimum catalog.Cents `json:"minimum_cents"` // his least charge for a lot
	Freight catalog.Cents `json:"freight_cents"`
	Total   catalog.Cents `json:"total_cents"`
	Lines   []workDoc     `json:"lines"`
}

// workDoc is what is done to one piece by one kind of doer, or by one maker.
type workDoc struct {
	Slot  string    `json:"slot"`
	Piece string    `json:"piece"`
	Level string    `json:"level"`
	Maker string    `json:"maker"` // "" unless it is a maker's; the name likewise
	Name  string    `json:"name"`
	Parts []partDoc `json:"parts"`
}

type partDoc struct {
	Work  string        `json:"trade_work"`
	Hours float64       `json:"hours"`
	Cents catalog.Cents `json:"cents"`
}

// purchaseDoc is what is bought from one seller.
type purchaseDoc struct {
	From    string        `json:"from"` // drawers, vendor, privately
	Vendor  string        `json:"vendor"`
	Name    string        `json:"name"`
	Pieces  []boughtDoc   `json:"pieces"`
	Bundles []bundleDoc   `json:"bundles"`
	Freight catalog.Cents `json:"freight_cents"`
	Total   catalog.Cents `json:"total_cents"`
}

type boughtDoc struct {
	Piece    string        `json:"piece"`
	Quantity int           `json:"quantity"`
	Cents    catalog.Cents `json:"cents"`
}

type bundleDoc struct {
	Bundle string        `json:"bundle"` // or the piece that is sold by the box
	Box    int           `json:"box"`    // pieces in a box; 0: a bundle
	Count  int           `json:"count"`  // how many of it are bought
	Cents  catalog.Cents `json:"cents"`  // of all
}

type tradeDoc struct {
	Trade  string        `json:"trade"`
	Give   string        `json:"give"`
	Get    string        `json:"get"`
	Credit catalog.Cents `json:"credit_cents"`
}

// heldDoc is a piece in reserve, for one slot or two.
type heldDoc struct {
	Piece string   `json:"piece"`
	Slots []string `json:"slots"`
	Owner string   `json:"owner"` // customer, shop, or the vendor's id
}

// leftDoc is a piece that the plan doesn't use.
type leftDoc struct {
	Piece    string `json:"piece"`
	Quantity int    `json:"quantity"`
	Owner    string `json:"owner"`
	Advice   string `json:"advice"`
}

// startingDoc is what would take the place of starting values, and which.
type startingDoc struct {
	Instead string   `json:"what_would_replace_them"`
	Of      []string `json:"of"` // pieces, or slots for their rescue
	Rests   []string `json:"rests_on"`
}

// underWayDoc is a piece for which something has begun.
type underWayDoc struct {
	Piece   string `json:"piece"`
	Stage   string `json:"stage"`
	Plater  string `json:"plater"` // where it is; "" elsewhere
	Lot     string `json:"lot"`
	Sent    string `json:"sent_day"` // "" not known
	Overdue int    `json:"overdue_days"`
	Slot    string `json:"slot"` // where it hangs
}

// errands adds what has to be sent, done, bought, traded and kept for a plan.
func (doc *planDoc) errands(p *plan.Plan) {
	for _, lot := range paper.Lots(p) {
		q := &p.Of.Platers[lot.Plater]
		d := lotDoc{q.ID, q.Name, lot.Pieces, lot.Work, lot.Minimum, lot.Freight, lot.Total, []workDoc{}}
		for _, i := range lot.Lines {
			d.Lines = append(d.Lines, workOf(p, &p.Lines[i], func(part *plan.Part) bool { return part.Doer == plan.ByPlater }))
		}
		doc.Lots = append(doc.Lots, d)
	}
	for i := range p.Lines {
		l := &p.Lines[i]
		if own := workOf(p, l, func(part *plan.Part) bool { return part.Doer == plan.ByShop }); len(own.Parts) > 0 {
			doc.OwnWork = append(doc.OwnWork, own)
		}
		for k := range l.Choice.Parts {
			if one := &l.Choice.Parts[k]; one.Doer == plan.ByMaker {
				d := workOf(p, l, func(part *plan.Part) bool { return part == one })
				d.Maker, d.Name = p.Of.Makers[one.Maker].ID, p.Of.Makers[one.Maker].Name
				doc.Makers = append(doc.Makers, d)
			}
		}
	}
	doc.ToBuy, doc.Held, doc.LeftOver = purchaseDocs(p), heldDocs(p), leftDocs(p)
	for _, c := range p.Charges {
		if c.Kind == plan.ChargeTrade {
			t := &p.Of.Trades[c.Of]
			doc.ToTrade = append(doc.ToTrade, tradeDoc{t.ID, plan.PieceName(p.Of, t.Give), plan.PieceName(p.Of, t.Get),
				t.Credit})
		}
	}
	notes := newNotes()
	planTable(p, notes)
	doc.Starting = notes.docs()
}

func (n *notes) docs() []startingDoc {
	docs := []startingDoc{}
	for _, have := range n.list {
		docs = append(docs, startingDoc{have.remedy, have.ids, have.rests})
	}
	return docs
}

// workOf is what is done to the piece of a line, those parts that are wanted.
func workOf(p *plan.Plan, l *plan.Line, wanted func(*plan.Part) bool) workDoc {
	d := workDoc{Slot: p.SlotOf(l).ID, Piece: p.NameOf(l.Choice), Level: l.Choice.Level, Parts: []partDoc{}}
	for i := range l.Choice.Parts {
		if part := &l.Choice.Parts[i]; wanted(part) {
			d.Parts = append(d.Parts, partDoc{partName(p.Of, *part), millionths(part.Hours), part.Cost})
		}
	}
	return d
}

func purchaseDocs(p *plan.Plan) []purchaseDoc {
	docs, many := []purchaseDoc{}, plan.BundlesOf(p.Of, p.Lines)
	for _, buy := range paper.Purchases(p) {
		d := purchaseDoc{
			From:    "drawers",
			Freight: buy.Freight,
			Total:   buy.Total,
			Pieces:  []boughtDoc{},
			Bundles: []bundleDoc{},
		}
		switch {
		case buy.Vendor != catalog.None:
			d.From, d.Vendor, d.Name = "vendor", p.Of.Vendors[buy.Vendor].ID, p.Of.Vendors[buy.Vendor].Name
		case buy.Side == catalog.Vendors:
			d.From = "privately"
		}
		for _, i := range buy.Lines {
			c := p.Lines[i].Choice
			d.Pieces = append(d.Pieces, boughtDoc{p.NameOf(c), max(1, p.Of.Slots[c.Slot].Quantity), c.Get})
		}
		for _, b := range buy.Bundles {
			d.Bundles = append(d.Bundles, bundleDoc{p.Of.Bundles[b].ID, p.Of.Bundles[b].Box, many[b],
				plan.ChargeOf(p, plan.ChargeBundle, b)})
		}
		docs = append(docs, d)
	}
	return docs
}

// ownerOf is customer, shop, or the vendor's id.
func ownerOf(st *catalog.State, p *catalog.Piece) string {
	switch p.Side {
	case catalog.Shops:
		return "shop"
	case catalog.Vendors:
		return st.Vendors[p.Vendor].ID
	}
	return "customer"
}

func heldDocs(p *plan.Plan) []heldDoc {
	docs := []heldDoc{}
	for i := range p.Lines {
		l := &p.Lines[i]
		if l.Fallback == nil || (l.Sharing != nil && l.Sharing.With < l.Slot) {
			continue // named with the other slot
		}
		d := heldDoc{p.NameOf(l.Fallback), []string{p.SlotOf(l).ID}, ownerOf(p.Of, p.PieceOf(l.Fallback))}
		if l.Sharing != nil {
			d.Slots = append(d.Slots, p.Of.Slots[l.Sharing.With].ID)
		}
		docs = append(docs, d)
	}
	return docs
}

func leftDocs(p *plan.Plan) []leftDoc {
	docs := []leftDoc{}
	for _, s := range paper.Leftover(p) {
		docs = append(docs, leftDoc{plan.PieceName(p.Of, s.Piece), s.Quantity, ownerOf(p.Of, &p.Of.Pieces[s.Piece]),
			s.Advice})
	}
	return docs
}

// underWayDocs are the pieces that standing tells of.
func underWayDocs(st *catalog.State) []underWayDoc {
	docs := []underWayDoc{}
	for i := range st.Pieces {
		p := &st.Pieces[i]
		if p.Elsewhere || p.Stage == catalog.StageSeen && !p.AtPlater() {
			continue
		}
		d := underWayDoc{Piece: st.PieceLabel(i), Stage: p.Stage.String()}
		switch {
		case p.AtPlater():
			d.Plater, d.Lot = st.Platers[p.Sent.Plater].ID, p.Sent.Lot
			if p.Sent.On.Set {
				d.Sent = p.Sent.On.V.Format(time.DateOnly)
				d.Overdue = p.Overdue(st)
			}
		case p.Stage == catalog.StageHung:
			d.Slot = st.Slots[p.HungIn].ID
		}
		docs = append(docs, d)
	}
	return docs
}
