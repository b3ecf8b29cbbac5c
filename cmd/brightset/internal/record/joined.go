package record

import (
	"fmt"

	"brightset/catalog"
	"brightset/catalog/event"
	"brightset/model/choice"
)

// joined puts so many of another bag with a bag. What they are worth is what they were worth
// together; whatever is less well known or looks worse of one of them counts for all: grade,
// tone, a finish that is not fresh, and every fault.
func (b *builder) joined(f *Facts) error {
	i, err := b.here(f.Target)
	if err != nil {
		return err
	}
	k, err := b.here(f.Piece)
	if err != nil {
		return err
	}
	if why := choice.Unlike(b.st, i, k); why != "" {
		return fmt.Errorf("%s and %s can't be put together: %s", b.name(i), b.name(k), why)
	}
	n, err := b.count(k, f)
	if err != nil {
		return err
	}
	p, q := &b.st.Pieces[i], &b.st.Pieces[k]
	b.namedBefore(i)
	b.setPiece(i, event.KeyQuantity, int64(p.Quantity+n))
	shared := func(x, y catalog.Cents) catalog.Cents { // for each of all
		all := catalog.Cents(p.Quantity + n)
		return (2*(catalog.Cents(p.Quantity)*x+catalog.Cents(n)*y) + all) / (2 * all)
	}
	if one := shared(p.Price, q.Price); one != p.Price {
		b.setPiece(i, event.KeyPrice, catalog.FormatMoney(one))
	}
	if one := shared(p.Value, q.Value); one != p.Value {
		b.setPiece(i, event.KeyValue, catalog.FormatMoney(one))
	}
	b.worseOf(i, k)
	b.faultsOf(i, k)
	if n < q.Quantity {
		b.setPiece(k, event.KeyQuantity, int64(q.Quantity-n))
		return nil
	}
	shop, target := b.of(k)
	b.clear(shop, target)
	return nil
}

// worseOf writes of a bag what looks worse of another one.
func (b *builder) worseOf(i, k int) {
	p, q := &b.st.Pieces[i], &b.st.Pieces[k]
	if p.Grade.Set || q.Grade.Set {
		one, _ := choice.AsIsGrade(b.st, i)
		other, _ := choice.AsIsGrade(b.st, k)
		b.setPiece(i, event.KeyGrade, value(catalog.FormatCenti(min(one, other))))
	}
	if p.Tone.Set || q.Tone.Set {
		tone := p.Tone.Or(0)
		if abs(q.Tone.Or(0)) > abs(tone) {
			tone = q.Tone.V
		}
		b.setPiece(i, event.KeyTone, value(catalog.FormatCenti(tone)))
	}
	if fresh := choice.FreshAsItIs(p); fresh && !choice.FreshAsItIs(q) {
		b.setPiece(i, event.KeyFresh, false)
	}
	if q.Weak {
		b.setPiece(i, event.KeyWeak, true)
	}
}

func abs(c catalog.Centi) catalog.Centi { return max(c, -c) }

// faultsOf writes the faults of another bag down for a bag; one that it has itself counts as
// the worse of the two.
func (b *builder) faultsOf(i, k int) {
	shop, all := b.below(i, event.TableFinding)
	taken := b.d.Keys(shop, all)
	for _, f := range b.st.Pieces[k].Findings {
		defect := b.st.Tables.Defects[f.Defect].Name
		var like *catalog.Finding
		for n := range b.st.Pieces[i].Findings {
			if one := &b.st.Pieces[i].Findings[n]; one.Defect == f.Defect && one.Where == f.Where {
				like = one
			}
		}
		name := free(defect, taken)
		worse := f
		if like != nil {
			name = like.ID
			worse.Severity, worse.Extent = max(f.Severity, like.Severity), max(f.Extent, like.Extent)
			worse.Count = max(f.Count, like.Count)
			worse.Harmless.V = f.Harmless.V && like.Harmless.V
			worse.Harmless.Set = f.Harmless.Set || like.Harmless.Set
			if worse.Severity == like.Severity && worse.Extent == like.Extent && worse.Count == like.Count &&
				worse.Harmless == like.Harmless {
				continue
			}
		}
		taken = append(taken, name)
		_, target := b.below(i, event.TableFinding, name)
		b.set(shop, target, event.KeyDefect, defect)
		b.set(shop, target, event.KeySeverity, worse.Severity.String())
		b.set(shop, target, event.KeyWhere, string(worse.Where))
		b.set(shop, target, event.KeyExtent, value(catalog.FormatMicro(worse.Extent)))
		b.set(shop, target, event.KeyCount, int64(worse.Count))
		if worse.Harmless.Set {
			b.set(shop, target, event.KeyHarmless, worse.Harmless.V)
		}
	}
}
