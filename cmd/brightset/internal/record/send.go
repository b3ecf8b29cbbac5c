package record

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"brightset/catalog"
	"brightset/catalog/event"
	"brightset/model/choice"
	"brightset/model/plan"
)

// sent makes up a lot: what goes to one plater on one day, unless it is said to be another.
// Freight and what is missing to his least charge are spent with it, reckoned on the prices
// agreed; so is the work where its price is firm. Where it is not, he strips the piece and
// names his price before he goes on.
func (b *builder) sent(f *Facts) error {
	all, err := b.allHere(f.Target)
	if err != nil {
		return err
	}
	q, err := b.plater(f.To)
	if err != nil {
		return err
	}
	lot, joins := b.newLot(q), false
	if !f.NewLot {
		if open := b.lotOf(q, b.day(f)); open != "" {
			lot, joins = open, true
		}
	}
	work := catalog.Cents(0)
	for _, i := range all {
		if p := &b.st.Pieces[i]; p.AtPlater() {
			return fmt.Errorf("%s is at %s already; when it is back type: brightset record back %s", b.name(i),
				b.st.Platers[p.Sent.Plater].ID, b.typed(i))
		} else if p.Stage == catalog.StageHung {
			return fmt.Errorf("%s hangs in %s; if it was taken down, first type: brightset record unhung %s", b.name(i),
				b.st.Slots[p.HungIn].ID, b.typed(i))
		}
		own := f.of(b.st.Pieces[i].Key())
		sum, err := b.send(i, q, lot, &own)
		if err != nil {
			return err
		}
		work += sum
	}
	if joins {
		b.lessUpToLeast(q, lot, work)
		return nil
	}
	b.lotCharges(q, lot, all, work, f.NewLot)
	return nil
}

// upToLeast is what the ledger calls what is missing to a plater's least lot.
func upToLeast(plater, lot string) string {
	return fmt.Sprintf("up to the least lot of %s, lot %s", plater, lot)
}

// lotOf is the lot that goes to a plater on a day already, "" where none does: what goes
// to him on one day goes together, however it is recorded. A lot of which nothing is with
// him any more is over.
func (b *builder) lotOf(q int, day string) string {
	if b.st.Record == nil {
		return ""
	}
	lot := ""
	for i := range b.st.Record.Entries {
		e := &b.st.Record.Entries[i]
		if e.Action != event.Sent || e.Day().Format(time.DateOnly) != day {
			continue
		}
		for _, c := range e.Changes {
			if name := text(c.New[event.KeyLot]); b.isLotOf(q, name) && b.isThere(name) {
				lot = name
			}
		}
	}
	return lot
}

// isThere says whether some piece of a lot is at the plater's.
func (b *builder) isThere(lot string) bool {
	return slices.ContainsFunc(b.st.Pieces, func(p catalog.Piece) bool { return p.AtPlater() && p.Sent.Lot == lot })
}

// isLotOf says whether a lot is a plater's, by its name.
func (b *builder) isLotOf(q int, lot string) bool {
	number, ok := strings.CutPrefix(lot, b.st.Platers[q].ID+"-")
	n, err := strconv.Atoi(number)
	return ok && err == nil && n > 0
}

// lessUpToLeast takes further work in a lot off what is still missing to its least charge:
// nothing is left of that once the lot comes to as much.
func (b *builder) lessUpToLeast(q int, lot string, work catalog.Cents) {
	for _, s := range b.st.Job.Spent {
		if s.For != upToLeast(b.st.Platers[q].ID, lot) {
			continue
		}
		target := event.Of(event.TableSpent, s.ID)
		if s.Cents > work {
			b.set(false, target, event.KeyCost, catalog.FormatMoney(s.Cents-work))
		} else {
			b.clear(false, target)
		}
		return
	}
}

// newLot is the name of the next lot to a plater: one that none had that stands in the
// record.
func (b *builder) newLot(q int) string {
	n := 1
	count := func(lot string) {
		var k int
		if _, err := fmt.Sscanf(lot, strings.ReplaceAll(b.st.Platers[q].ID, "%", "%%")+"-%d", &k); err == nil {
			n = max(n, k+1)
		}
	}
	for i := range b.st.Pieces {
		count(b.st.Pieces[i].Sent.Lot)
	}
	if b.st.Record != nil {
		for i := range b.st.Record.Entries {
			for _, c := range b.st.Record.Entries[i].Changes {
				count(text(c.New[event.KeyLot]))
			}
		}
	}
	return fmt.Sprintf("%s-%d", b.st.Platers[q].ID, n)
}

// works writes the names of works, where there are any.
func (b *builder) works(shop bool, target event.Target, key event.Key, works []int) {
	names := []any{}
	for _, w := range works {
		names = append(names, b.st.Tables.Works[w].Name)
	}
	if len(names) > 0 {
		b.set(shop, target, key, names)
	}
}

// behindUs keeps, of every fault that was known when a piece was sent, which of its works were
// done before it went: it comes back unplated, and they are not done again.
func (b *builder) behindUs(i int, sent *catalog.Sent) {
	for k := range b.st.Pieces[i].Findings {
		f := &b.st.Pieces[i].Findings[k]
		if !sent.Knows(f) {
			continue
		}
		done, mends := []any{}, b.st.Tables.Mending(f, b.st.Pieces[i].Metal)
		for w := range b.st.Tables.Works {
			if slices.Contains(f.Done, w) || slices.Contains(sent.Before, w) && slices.Contains(mends, w) {
				done = append(done, b.st.Tables.Works[w].Name)
			}
		}
		if len(done) > 0 {
			shop, target := b.below(i, event.TableFinding, f.ID)
			b.set(shop, target, event.KeyDone, done)
		}
	}
}

// send writes the terms on which one piece goes to a plater, and what that comes to.
func (b *builder) send(i, q int, lot string, f *Facts) (catalog.Cents, error) {
	c, err := b.wanted(i, q, f)
	if err != nil {
		return 0, err
	}
	terms := choice.Terms(b.st, c)
	if f.Cost != "" {
		if terms.Cost, err = money("cost", f.Cost); err != nil {
			return 0, err
		}
	}
	n, err := b.howMany(i, c, f)
	if err != nil {
		return 0, err
	}
	b.agreed(c)
	b.split(i, n, c.Slot)
	shop, target := b.below(i, event.TableSent)
	b.clear(shop, target)
	b.set(shop, target, event.KeyPlater, b.st.Platers[q].ID)
	b.set(shop, target, event.KeyWork, terms.Work)
	b.set(shop, target, event.KeyLevel, terms.Level)
	b.set(shop, target, event.KeyLot, lot)
	b.set(shop, target, event.KeyOn, b.day(f))
	b.set(shop, target, event.KeyCost, catalog.FormatMoney(terms.Cost))
	b.set(shop, target, event.KeyQuoted, c.Quote != catalog.None || f.Cost != "") // else it is our own estimate
	b.set(shop, target, event.KeyBreakage, value(catalog.FormatMicro(terms.Breakage.V)))
	b.set(shop, target, event.KeyRefused, value(catalog.FormatMicro(terms.Refused.V)))
	b.set(shop, target, event.KeyGrade, value(catalog.FormatCenti(terms.Grade.V)))
	b.set(shop, target, event.KeyTone, value(catalog.FormatCenti(terms.Tone.V)))
	b.set(shop, target, event.KeyFresh, terms.Fresh.V)
	b.set(shop, target, event.KeyDays, int64(terms.Days.V))
	b.set(shop, target, event.KeyCount, int64(n))
	b.set(shop, target, event.KeyFactor, value(catalog.FormatMicro(b.st.Platers[q].Factor)))
	if m := b.st.Pieces[i].Metal; m != catalog.None && b.st.Tables.Metals[m].Base.Set {
		b.set(shop, target, event.KeyBase, value(catalog.FormatMicro(b.st.Tables.Metals[m].Base.V)))
	}
	b.works(shop, target, event.KeyBefore, choice.WorksBefore(b.st, c))
	b.works(shop, target, event.KeyAfter, choice.WorksAfter(b.st, c))
	b.taken(i)
	own, makers := choice.WorkBefore(b.st, c)
	b.prepared(i, own*catalog.Cents(n), makers*catalog.Cents(n))
	sum := terms.Cost * catalog.Cents(n)
	switch {
	case b.goesOn(i, c, f):
		b.setPiece(i, event.KeyStage, catalog.StageApproved.String())
		b.spend(sum, i, "%s: %s of %s", b.st.Platers[q].ID, terms.Work, b.name(i))
	case !b.st.Pieces[i].Bare():
		b.setPiece(i, event.KeyStage, catalog.StageSeen.String())
	}
	return sum, nil
}

// goesOn says whether a plater does the work without asking again: his price is firm, or
// was agreed when the piece was handed over.
func (b *builder) goesOn(i int, c *plan.Choice, f *Facts) bool {
	firm := c.Quote != catalog.None && b.st.Pieces[i].Quotes[c.Quote].Firm == catalog.Firm
	return !f.StripFirst && (f.Cost != "" || firm)
}
