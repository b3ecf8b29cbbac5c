package record

import (
	"fmt"
	"slices"
	"strings"

	"brightset/catalog"
	"brightset/model"
)

// sent closes a lot: what goes to one plater together. Freight and what is missing to
// his least charge are spent with it, reckoned on the prices agreed; so is the work,
// unless he is to strip first and name his price.
func (b *builder) sent(f *Facts) error {
	all, err := b.pieces(f.Target)
	if err != nil {
		return err
	}
	q, err := b.plater(f.To)
	if err != nil {
		return err
	}
	plater := &b.st.Platers[q]
	lot := b.newLot(q)
	work := catalog.Cents(0)
	for _, i := range all {
		if _, err := b.here(b.st.Pieces[i].Key()); err != nil {
			return err
		}
		if p := &b.st.Pieces[i]; p.AtPlater() {
			return fmt.Errorf("%s is at %s already; when it is back type: brightset record back %s", b.name(i), b.st.Platers[p.Sent.Plater].ID, b.name(i))
		} else if p.Stage == catalog.StageHung {
			return fmt.Errorf("%s hangs in %s; if that was wrong, type: brightset record undo", b.name(i), b.st.Slots[p.HungIn].ID)
		}
		sum, err := b.send(i, q, lot, f)
		if err != nil {
			return err
		}
		work += sum
	}
	b.spend(plater.Freight, catalog.None, "freight of %s, lot %s", plater.ID, lot)
	b.spend(max(0, plater.Minimum-work), catalog.None, "up to the least lot of %s, lot %s", plater.ID, lot)
	return nil
}

// newLot is the name of the next lot to a plater.
func (b *builder) newLot(q int) string {
	n := 1
	for i := range b.st.Pieces {
		if s := &b.st.Pieces[i].Sent; s.Was && s.Plater == q {
			var k int
			if _, err := fmt.Sscanf(s.Lot, b.st.Platers[q].ID+"-%d", &k); err == nil {
				n = max(n, k+1)
			}
		}
	}
	return fmt.Sprintf("%s-%d", b.st.Platers[q].ID, n)
}

// send writes the terms on which one piece goes to a plater, and what that comes to.
func (b *builder) send(i, q int, lot string, f *Facts) (catalog.Cents, error) {
	c, err := b.wanted(i, q, f)
	if err != nil {
		return 0, err
	}
	terms := model.Terms(b.st, c)
	if f.Cost != "" {
		if terms.Cost, err = money("cost", f.Cost); err != nil {
			return 0, err
		}
	}
	n, err := b.howMany(i, c, f)
	if err != nil {
		return 0, err
	}
	b.split(i, n, c.Slot)
	shop, target := b.of(i, "sent")
	b.clear(shop, target)
	b.set(shop, target, "plater", b.st.Platers[q].ID)
	b.set(shop, target, "work", terms.Work)
	b.set(shop, target, "level", terms.Level)
	b.set(shop, target, "lot", lot)
	b.set(shop, target, "on", b.day(f))
	b.set(shop, target, "cost", catalog.FormatMoney(terms.Cost))
	b.set(shop, target, "breakage", value(catalog.FormatMicro(terms.Breakage.V)))
	b.set(shop, target, "refused", value(catalog.FormatMicro(terms.Refused.V)))
	b.set(shop, target, "grade", value(catalog.FormatCenti(terms.Grade.V)))
	b.set(shop, target, "tone", value(catalog.FormatCenti(terms.Tone.V)))
	b.set(shop, target, "fresh", terms.Fresh.V)
	b.set(shop, target, "days", int64(terms.Days.V))
	b.set(shop, target, "count", int64(n))
	b.set(shop, target, "factor", value(catalog.FormatMicro(b.st.Platers[q].Factor)))
	if m := b.st.Pieces[i].Metal; m != catalog.None && b.st.Tables.Metals[m].Base.Set {
		b.set(shop, target, "base", value(catalog.FormatMicro(b.st.Tables.Metals[m].Base.V)))
	}
	b.taken(i)
	b.prepared(i, model.OthersWork(b.st, c)*catalog.Cents(n))
	sum := terms.Cost * catalog.Cents(n)
	switch {
	case !f.StripFirst:
		b.setPiece(i, "stage", catalog.StageApproved.String())
		b.spend(sum, i, "%s: %s of %s", b.st.Platers[q].ID, terms.Work, b.name(i))
	case !b.st.Pieces[i].Bare():
		b.setPiece(i, "stage", catalog.StageSeen.String())
	}
	return sum, nil
}

// wanted is the one thing a plater can do with a piece that fits what was said; where
// several do, the one in the plan that was kept.
func (b *builder) wanted(i, q int, f *Facts) (*model.Choice, error) {
	var fits []*model.Choice
	var names []string
	for s, choices := range model.Choices(b.st) {
		for k := range choices {
			c := &choices[k]
			if c.Piece != i || c.Plater != q || (f.Work != "" && c.Work != f.Work) || (f.Level != "" && c.Level != f.Level) || (f.Slot != "" && b.st.Slots[s].ID != f.Slot) {
				continue
			}
			fits = append(fits, c)
			names = append(names, fmt.Sprintf("--slot %s --work %s --level %s", b.st.Slots[s].ID, c.Work, c.Level))
		}
	}
	if len(fits) == 0 {
		return nil, fmt.Errorf("%s can't do that with %s: there is no quote and no estimate for it; what can be done: brightset check --slot SLOT", b.st.Platers[q].ID, b.name(i))
	}
	if len(fits) == 1 {
		return fits[0], nil
	}
	for _, c := range fits {
		if model.IsKept(b.st, c) {
			return c, nil
		}
	}
	if b.alike(fits) {
		return fits[0], nil
	}
	names = slices.Compact(names)
	return nil, fmt.Errorf("%s can do more than one thing with %s; say which: %s", b.st.Platers[q].ID, b.name(i), strings.Join(names[:min(4, len(names))], ", or "))
}

// alike says whether it makes no difference for which slot a piece is sent.
func (b *builder) alike(fits []*model.Choice) bool {
	first := model.Terms(b.st, fits[0])
	for _, c := range fits[1:] {
		if model.Terms(b.st, c) != first || b.st.Slots[c.Slot].Quantity != b.st.Slots[fits[0].Slot].Quantity {
			return false
		}
	}
	return true
}

// atPlater finds a piece that is at a plater's.
func (b *builder) atPlater(id string) (int, *catalog.Sent, error) {
	i, err := b.here(id)
	if err != nil {
		return 0, nil, err
	}
	p := &b.st.Pieces[i]
	if !p.AtPlater() {
		return 0, nil, fmt.Errorf("%s is not at a plater's; first type: brightset record sent %s --to PLATER", b.name(i), b.name(i))
	}
	return i, &p.Sent, nil
}

func (b *builder) stripped(f *Facts) error {
	i, err := b.here(f.Target)
	if err != nil {
		return err
	}
	p := &b.st.Pieces[i]
	if p.Stage > catalog.StageApproved {
		return fmt.Errorf("%s is %s already", b.name(i), p.Stage)
	}
	if p.Stage < catalog.StageStripped {
		b.setPiece(i, "stage", catalog.StageStripped.String())
	}
	if p.AtPlater() {
		shop, target := b.of(i, "sent")
		b.set(shop, target, "refused", int64(0)) // he has seen it and kept it
	}
	if f.Defect != "" {
		b.addFinding(i, f)
	}
	return nil
}

func (b *builder) priced(f *Facts) error {
	i, sent, err := b.atPlater(f.Target)
	if err != nil {
		return err
	}
	cost, err := money("cost", f.Cost)
	if err != nil {
		return err
	}
	shop, target := b.of(i, "sent")
	b.set(shop, target, "cost", f.Cost)
	b.set(shop, target, "firm", string(catalog.Firm))
	b.set(shop, target, "refused", int64(0))
	b.set(shop, target, "grade", value(f.Grade))
	b.set(shop, target, "breakage", value(f.Breakage))
	if b.st.Pieces[i].Stage == catalog.StageApproved {
		b.spend((cost-sent.Cost)*catalog.Cents(sent.Count), i, "%s: %s came out at another price", b.st.Platers[sent.Plater].ID, b.name(i))
		return nil
	}
	b.setPiece(i, "stage", catalog.StagePriced.String())
	return nil
}

func (b *builder) approved(f *Facts) error {
	return b.eachAtPlater(f.Target, func(i int, sent *catalog.Sent) error {
		if b.st.Pieces[i].Stage >= catalog.StageApproved {
			return fmt.Errorf("%s is %s already", b.name(i), b.st.Pieces[i].Stage)
		}
		b.setPiece(i, "stage", catalog.StageApproved.String())
		b.spend(sent.Cost*catalog.Cents(sent.Count), i, "%s: %s of %s", b.st.Platers[sent.Plater].ID, sent.Work, b.name(i))
		return nil
	})
}

func (b *builder) plated(f *Facts) error {
	return b.eachAtPlater(f.Target, func(i int, sent *catalog.Sent) error {
		if b.st.Pieces[i].Stage != catalog.StageApproved {
			return fmt.Errorf("%s was not approved yet; first type: brightset record approved %s", b.name(i), b.name(i))
		}
		b.setPiece(i, "stage", catalog.StagePlated.String())
		return nil
	})
}

func (b *builder) eachAtPlater(ids string, do func(int, *catalog.Sent) error) error {
	all, err := b.pieces(ids)
	if err != nil {
		return err
	}
	for _, i := range all {
		_, sent, err := b.atPlater(b.st.Pieces[i].Key())
		if err != nil {
			return err
		}
		if err := do(i, sent); err != nil {
			return err
		}
	}
	return nil
}

// refused: he won't do it. Stripping is paid for, and what was spent on the work comes
// back.
func (b *builder) refused(f *Facts) error {
	i, sent, err := b.atPlater(f.Target)
	if err != nil {
		return err
	}
	name := fmt.Sprintf("refused %s %s", b.st.Platers[sent.Plater].ID, b.st.Pieces[i].ID)
	b.set(false, []string{"ban", name}, "piece", b.st.Pieces[i].Key())
	b.set(false, []string{"ban", name}, "plater", b.st.Platers[sent.Plater].ID)
	b.set(false, []string{"ban", name}, "reason", "he sent it back after stripping")
	return b.takeBack(i, sent, f, catalog.StageStripped)
}

func (b *builder) recalled(f *Facts) error {
	i, sent, err := b.atPlater(f.Target)
	if err != nil {
		return err
	}
	stage := catalog.StageSeen
	switch b.st.Pieces[i].Stage {
	case catalog.StageSeen:
	case catalog.StagePlated:
		return fmt.Errorf("%s is plated: nothing can be taken back any more; when it is here type: brightset record back %s", b.name(i), b.name(i))
	default:
		stage = catalog.StageStripped
	}
	if err := b.remember(i, sent, f); err != nil {
		return err
	}
	return b.takeBack(i, sent, f, stage)
}

func (b *builder) takeBack(i int, sent *catalog.Sent, f *Facts, stage catalog.Stage) error {
	plater := &b.st.Platers[sent.Plater]
	fee := catalog.Cents(0)
	if stage == catalog.StageStripped {
		fee = plater.StripFee
	}
	if f.Cost != "" {
		var err error
		if fee, err = money("cost", f.Cost); err != nil {
			return err
		}
	}
	n := catalog.Cents(sent.Count)
	if b.st.Pieces[i].Stage >= catalog.StageApproved {
		b.spend(-sent.Cost*n, i, "%s: %s was not done on %s", plater.ID, sent.Work, b.name(i))
	}
	b.spend(fee*n, i, "%s: for stripping %s", plater.ID, b.name(i))
	shop, target := b.of(i, "sent")
	b.clear(shop, target)
	b.setPiece(i, "stage", stage.String())
	return nil
}

// back: the findings were mended; what it looks like now is what counts.
func (b *builder) back(f *Facts) error {
	i, sent, err := b.atPlater(f.Target)
	if err != nil {
		return err
	}
	p, plater := &b.st.Pieces[i], &b.st.Platers[sent.Plater]
	paid := sent.Cost
	if f.Cost != "" {
		if paid, err = money("cost", f.Cost); err != nil {
			return err
		}
	}
	n := catalog.Cents(sent.Count)
	if p.Stage >= catalog.StageApproved {
		b.spend((paid-sent.Cost)*n, i, "%s: %s came out at another price", plater.ID, b.name(i))
	} else {
		b.spend(paid*n, i, "%s: %s of %s", plater.ID, sent.Work, b.name(i))
	}
	shop, target := b.of(i, "sent")
	b.set(shop, target, "paid", catalog.FormatMoney(paid))
	grade, tone := value(catalog.FormatCenti(sent.Grade.V)), value(catalog.FormatCenti(sent.Tone.V))
	if f.Grade != "" {
		grade = value(f.Grade)
	}
	if f.Tone != "" {
		tone = value(f.Tone)
	}
	b.setPiece(i, "stage", catalog.StageBack.String())
	b.setPiece(i, "grade", grade)
	b.setPiece(i, "tone", tone)
	b.setPiece(i, "fresh", sent.Fresh.Or(true))
	b.setPiece(i, "days", int64(0))
	shop, findings := b.of(i, "finding")
	for _, id := range b.d.Keys(shop, findings) {
		_, one := b.of(i, "finding", id)
		b.clear(shop, one)
	}
	return nil
}
