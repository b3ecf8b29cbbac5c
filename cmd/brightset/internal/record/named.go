package record

import (
	"brightset/catalog"
	"brightset/catalog/event"
)

// remember makes the price a plater has named after stripping a quote of his, when the
// piece is taken back from him: were it sent to him again, that is what he asks.
func (b *builder) remember(i int, sent *catalog.Sent, f *Facts) error {
	if sent.Firm != catalog.Firm {
		return nil
	}
	q := &b.st.Platers[sent.Plater]
	facts := Facts{Target: b.st.Pieces[i].Key(), To: q.ID, Cost: catalog.FormatMoney(sent.Cost), Work: sent.Work,
		Level: sent.Level,
		Firm:  string(catalog.Firm), Grade: catalog.FormatCenti(sent.Grade.V),
		Breakage: catalog.FormatMicro(sent.Breakage.Or(0)), On: f.On}
	if err := b.quoted(&facts); err != nil {
		return err
	}
	quote := b.deed.Sets[len(b.deed.Sets)-1]
	b.set(quote.Shop, quote.Target, event.KeyRefused, int64(0)) // he has seen it stripped
	if sent.Known.Set {
		known := []any{}
		for _, id := range sent.Known.V {
			known = append(known, id)
		}
		b.set(quote.Shop, quote.Target, event.KeyKnown, known) // what came to light after that is not in it
	}
	return nil
}
