package report

import (
	"fmt"
	"slices"
	"strings"

	"brightset/catalog"
	"brightset/catalog/event"
	"brightset/catalog/journal"
	"brightset/model/choice"
)

// freightLeftOut says that a vendor whose freight the plan reckoned with was bought from without any: the plan
// leaves the freight out from then on.
func freightLeftOut(before, st *catalog.State, news *catalog.News, entry int) []string {
	at := slices.IndexFunc(st.Record.Entries, func(e journal.Entry) bool { return e.Seq == entry })
	if at < 0 || st.Record.Entries[at].Action != event.Bought ||
		slices.ContainsFunc(news.Spent, func(s catalog.Spent) bool { return strings.HasPrefix(s.For, "freight: ") }) {
		return nil
	}
	for _, c := range st.Record.Entries[at].Changes {
		i, ok := before.FindPiece(c.Target.Name())
		if !ok || !c.Target.Is(event.TablePiece) {
			continue
		}
		if v := vendorOf(before, i); v != catalog.None && before.Vendors[v].Freight > 0 {
			freight := catalog.FormatMoney(before.Vendors[v].Freight)
			return []string{fmt.Sprintf("the freight of %s, %s, is not in it; if he charges it: brightset record undo, "+
				"and again with --freight %s", before.Vendors[v].Name, freight, freight)}
		}
	}
	return nil
}

// vendorOf is who sells a piece, by itself or in a bundle; catalog.None where nobody does.
func vendorOf(st *catalog.State, i int) int {
	if b := st.Pieces[i].Bundle; b != catalog.None {
		return st.Bundles[b].Vendor
	}
	return choice.VendorOf(&st.Pieces[i])
}
