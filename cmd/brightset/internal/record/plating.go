package record

import (
	"fmt"

	"brightset/catalog"
	"brightset/catalog/event"
	"brightset/model/choice"
)

// atPlater finds a piece that is at a plater's.
func (b *builder) atPlater(id string) (int, *catalog.Sent, error) {
	i, err := b.here(id)
	if err == nil {
		err = b.sentOut(i)
	}
	if err != nil {
		return 0, nil, err
	}
	return i, &b.st.Pieces[i].Sent, nil
}

// sentOut makes sure that a piece is at a plater's.
func (b *builder) sentOut(i int) error {
	switch p := &b.st.Pieces[i]; {
	case p.AtPlater():
		return nil
	case p.Sent.Was:
		return fmt.Errorf("%s is not at a plater's any more: it is %s", b.name(i), p.Stage)
	}
	return fmt.Errorf("%s is not at a plater's; first type: brightset record sent %s --to PLATER", b.name(i), b.typed(i))
}

// notPlated finds a piece that is at a plater's and not done yet.
func (b *builder) notPlated(id string) (int, *catalog.Sent, error) {
	i, sent, err := b.atPlater(id)
	if err == nil && b.st.Pieces[i].Stage == catalog.StagePlated {
		err = fmt.Errorf("%s is plated: nothing can be taken back any more; when it is here type: brightset record back %s",
			b.name(i), b.typed(i))
	}
	return i, sent, err
}

func (b *builder) stripped(f *Facts) error {
	i, err := b.here(f.Target)
	if err != nil {
		return err
	}
	p := &b.st.Pieces[i]
	if p.Stage > catalog.StageApproved {
		return fmt.Errorf("%s is %s already; if that was wrong, type: brightset record undo", b.name(i), p.Stage)
	}
	if said := flags("severity", f.Severity, "extent", f.Extent, "count", f.Count, "where", f.Where); f.Defect == "" &&
		said != "" {
		return fmt.Errorf("%s is about a fault; say which: --defect DEFECT", said)
	}
	if p.Stage < catalog.StageStripped {
		b.setPiece(i, event.KeyStage, catalog.StageStripped.String())
	}
	if p.AtPlater() {
		shop, target := b.below(i, event.TableSent)
		b.set(shop, target, event.KeyRefused, int64(0)) // he has seen it and kept it
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
	b.dearer(i, sent, cost)
	shop, target := b.below(i, event.TableSent)
	terms := b.standing(i)
	terms.Cost = cost
	b.settle(i, &terms)
	b.set(shop, target, event.KeyFirm, string(catalog.Firm))
	b.set(shop, target, event.KeyRefused, int64(0))
	b.set(shop, target, event.KeyGrade, value(f.Grade))
	b.set(shop, target, event.KeyBreakage, value(f.Breakage))
	if b.st.Pieces[i].Stage >= catalog.StageApproved {
		b.spend((cost-sent.Cost)*catalog.Cents(sent.Count), i, "%s: %s came out at another price",
			b.st.Platers[sent.Plater].ID, b.name(i))
		return nil
	}
	b.setPiece(i, event.KeyStage, catalog.StagePriced.String())
	return nil
}

func (b *builder) approved(f *Facts) error {
	return b.eachAtPlater(f.Target, func(i int, sent *catalog.Sent) error {
		if b.st.Pieces[i].Stage >= catalog.StageApproved {
			return fmt.Errorf("%s is %s already; what it costs is spent", b.name(i), b.st.Pieces[i].Stage)
		}
		terms := b.standing(i)
		b.settle(i, &terms)
		b.setPiece(i, event.KeyStage, catalog.StageApproved.String())
		b.spend(terms.Cost*catalog.Cents(sent.Count), i, "%s: %s of %s", b.st.Platers[sent.Plater].ID, sent.Work, b.name(i))
		return nil
	})
}

func (b *builder) plated(f *Facts) error {
	return b.eachAtPlater(f.Target, func(i int, sent *catalog.Sent) error {
		if b.st.Pieces[i].Stage != catalog.StageApproved {
			if b.st.Pieces[i].Stage == catalog.StagePlated {
				return fmt.Errorf("%s is plated already; when it is here type: brightset record back %s", b.name(i), b.typed(i))
			}
			return fmt.Errorf("%s was not approved yet; first type: brightset record approved %s", b.name(i), b.typed(i))
		}
		b.setPiece(i, event.KeyStage, catalog.StagePlated.String())
		return nil
	})
}

func (b *builder) eachAtPlater(ids string, do func(int, *catalog.Sent) error) error {
	all, err := b.allHere(ids)
	for _, i := range all {
		if err == nil {
			err = b.sentOut(i)
		}
		if err == nil {
			err = do(i, &b.st.Pieces[i].Sent)
		}
	}
	return err
}

// refused: he won't do it. Stripping is paid for, and what was spent on the work comes
// back.
func (b *builder) refused(f *Facts) error {
	i, sent, err := b.notPlated(f.Target)
	if err != nil {
		return err
	}
	name := free(fmt.Sprintf("refused %s %s", b.st.Platers[sent.Plater].ID, b.st.Pieces[i].ID),
		b.d.Keys(false, event.Of(event.TableBan)))
	b.set(false, event.Of(event.TableBan, name), event.KeyPiece, b.st.Pieces[i].Key())
	b.set(false, event.Of(event.TableBan, name), event.KeyPlater, b.st.Platers[sent.Plater].ID)
	b.set(false, event.Of(event.TableBan, name), event.KeyReason, "he sent it back after stripping")
	return b.takeBack(i, sent, f, catalog.StageStripped)
}

func (b *builder) recalled(f *Facts) error {
	i, sent, err := b.notPlated(f.Target)
	if err != nil {
		return err
	}
	stage := catalog.StageSeen
	if b.st.Pieces[i].Stage != catalog.StageSeen {
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
		var err error // the fee is for one piece, as everything with a plater
		if fee, err = money("cost", f.Cost); err != nil {
			return err
		}
	}
	n := catalog.Cents(sent.Count)
	if b.st.Pieces[i].Stage >= catalog.StageApproved {
		b.spend(-sent.Cost*n, i, "%s: %s was not done on %s", plater.ID, sent.Work, b.name(i))
	}
	b.spend(fee*n, i, "%s: for stripping %s", plater.ID, b.name(i))
	b.behindUs(i, sent)
	shop, target := b.below(i, event.TableSent)
	b.clear(shop, target)
	b.setPiece(i, event.KeyStage, stage.String())
	return nil
}

// back: what it looks like now is what counts. That it bears less than when it was new is not
// to be seen any more, and stays with it.
func (b *builder) back(f *Facts) error {
	i, sent, err := b.atPlater(f.Target)
	if err != nil {
		return err
	}
	p, plater := &b.st.Pieces[i], &b.st.Platers[sent.Plater]
	terms := b.standing(i)
	paid := terms.Cost
	if f.Cost != "" {
		if paid, err = money("cost", f.Cost); err != nil {
			return err
		}
	}
	b.dearer(i, sent, paid)
	n := catalog.Cents(sent.Count)
	if p.Stage >= catalog.StageApproved {
		b.spend((paid-sent.Cost)*n, i, "%s: %s came out at another price", plater.ID, b.name(i))
	} else {
		b.spend(paid*n, i, "%s: %s of %s", plater.ID, sent.Work, b.name(i))
	}
	shop, target := b.below(i, event.TableSent)
	b.set(shop, target, event.KeyPaid, catalog.FormatMoney(paid))
	grade, tone := value(catalog.FormatCenti(terms.Grade.V)), value(catalog.FormatCenti(sent.Tone.V))
	if f.Grade != "" {
		grade = value(f.Grade)
	}
	if f.Tone != "" {
		tone = value(f.Tone)
	}
	b.setPiece(i, event.KeyStage, catalog.StageBack.String())
	b.setPiece(i, event.KeyGrade, grade)
	b.setPiece(i, event.KeyTone, tone)
	b.setPiece(i, event.KeyFresh, sent.Fresh.Or(true))
	b.setPiece(i, event.KeyDays, int64(0))
	if choice.ComesBackWeak(b.st, p) {
		b.setPiece(i, event.KeyWeak, true)
	}
	b.mended(i, sent)
	return nil
}
