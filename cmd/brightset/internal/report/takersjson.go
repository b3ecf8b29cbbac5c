package report

import (
	"brightset/catalog"
	"brightset/model/ask"
)

// takerDoc is a work that nobody does.
type takerDoc struct {
	Work   string   `json:"work"`
	Slots  []string `json:"slots"`  // that nothing fills for want of it
	Named  []string `json:"named"`  // the slots' names
	Pieces []string `json:"pieces"` // that wait for it
	Names  []string `json:"names"`
}

func takerDocs(st *catalog.State, takers []ask.Taker) []takerDoc {
	docs := []takerDoc{}
	for _, t := range takers {
		d := takerDoc{Work: st.Tables.Works[t.Work].Name, Slots: []string{}, Named: []string{}, Pieces: []string{},
			Names: []string{}}
		for _, s := range t.Slots {
			d.Slots, d.Named = append(d.Slots, st.Slots[s].ID), append(d.Named, st.Slots[s].Name)
		}
		for _, i := range t.Pieces {
			d.Pieces, d.Names = append(d.Pieces, st.PieceLabel(i)), append(d.Names, st.Pieces[i].Name)
		}
		docs = append(docs, d)
	}
	return docs
}
