package catalog

import (
	"fmt"
	"slices"
	"strings"
)

// Price is what a plater asks for plating one piece, whatever its area: of a part, or one
// piece that he was asked about. It stands in place of his rate and of his least charge for
// a piece; works that he does before plating come on top.
type Price struct {
	Of   string       // a piece's id, with or without its file (job:, shop:), else a part
	Cost []Val[Cents] // per metal, indexed like Tables.Metals; not Set where he named none
	From Origin
}

// PriceOf is what a level costs for a piece in a slot whatever the area: that of the piece
// itself, else of the slot's part. Not Set where none was named for what it is made of.
func (l *Level) PriceOf(p *Piece, slot *Slot) Val[Cents] {
	if p.Metal == None {
		return Val[Cents]{}
	}
	names := []string{p.Key(), p.ID, slot.Part}
	if p.InShop && p.InBoth { // without its file an id means the job's piece
		names = []string{p.Key(), slot.Part}
	}
	for _, name := range names {
		for i := range l.Prices {
			if l.Prices[i].Of == name && l.Prices[i].Cost[p.Metal].Set {
				return l.Prices[i].Cost[p.Metal]
			}
		}
	}
	return Val[Cents]{}
}

// prices says whether a level has a price of some kind for a metal.
func (l *Level) prices(metal int) bool {
	for i := range l.Prices {
		if l.Prices[i].Cost[metal].Set {
			return true
		}
	}
	return l.Rate[metal].Set
}

// readPrices reads [plater.X.level.Y.price]: for every part or piece one price, or one by
// metal. Where there is neither a rate nor a price, nobody could tell what the level costs.
func (l *loader) readPrices(t *table) []Price {
	sub := t.sub("price", "what "+t.what+" costs by the piece")
	if sub == nil {
		return nil
	}
	var out []Price
	for _, name := range sub.keys() {
		var cost byMetal[Cents]
		readByMetal(sub, name, &cost, (*table).money)
		out = append(out, Price{Of: name, Cost: cost.list(len(l.state.Tables.Metals)),
			From: sub.origin(sub.place(name).key)})
		l.priced = append(l.priced, pricedName{sub, name})
	}
	return out
}

// listedPrices reads the prices that stand in included files, by plater and level, whatever
// its capitals: a list
// that came in from a spreadsheet. What stands with the plater himself goes before.
func (l *loader) listedPrices() map[string]map[string][]Price {
	out := map[string]map[string][]Price{}
	for _, root := range l.others {
		for _, plater := range root.named("plater") {
			for _, level := range plater.named("level") {
				if out[plater.id] == nil {
					out[plater.id] = map[string][]Price{}
				}
				name := strings.ToLower(level.id)
				out[plater.id][name] = append(out[plater.id][name], l.readPrices(level)...)
				l.listed = append(l.listed, level)
				level.done()
			}
		}
	}
	return out
}

// pricedElsewhere says whether an included file has prices for a level.
func (l *loader) pricedElsewhere(level *table) bool {
	return slices.ContainsFunc(l.listed, func(t *table) bool {
		return strings.EqualFold(t.path, level.path) && t.has("price")
	})
}

// checkListed reports prices of a level that its plater doesn't have.
func (l *loader) checkListed() {
	for _, t := range l.listed {
		id := strings.Split(t.path, "\x00")[1]
		q, known := l.platers.index[id]
		if !known || l.partial {
			continue // reported as a plater that nobody knows
		}
		levels := newNames("level")
		for i := range l.state.Platers[q].Levels {
			levels.add(l.state.Platers[q].Levels[i].Name, Origin{})
		}
		if _, has := levels.find(t.id); !has {
			message, hint := l.unknown(levels, t.id)
			t.wrongHere(message, hint)
		}
	}
}

// pricedName is a name that a plater has a price for, and where it stands.
type pricedName struct {
	t    *table
	name string
}

// checkPriced reports prices of what the job doesn't have. In the shop's file and what it
// includes, which serve all jobs, that is no mistake.
func (l *loader) checkPriced() {
	for _, one := range l.priced {
		ofJob := slices.ContainsFunc(append(slices.Clip(l.parts), l.job), func(t *table) bool {
			return t != nil && t.doc == one.t.doc
		})
		if !ofJob || l.partial {
			continue
		}
		if len(l.slotsFor(one.name)) > 0 {
			continue
		}
		if _, ok := l.state.FindPiece(one.name); ok {
			continue
		}
		_, hint := l.unknownSlot(one.name)
		one.t.wrongKey(one.name, fmt.Sprintf("no part or piece is called %q", clip(one.name)), hint)
	}
}
