package report

import "brightset/catalog"

// namesDoc gives for every id that has another name that name.
type namesDoc struct {
	Slots   map[string]string `json:"slots"`
	Pieces  map[string]string `json:"pieces"`
	Platers map[string]string `json:"platers"`
	Makers  map[string]string `json:"makers"`
	Vendors map[string]string `json:"vendors"`
}

func namesOf(st *catalog.State) namesDoc {
	var doc namesDoc
	doc.Slots = namesFor(len(st.Slots), func(i int) (id, name string) { return st.Slots[i].ID, st.Slots[i].Name })
	doc.Pieces = namesFor(len(st.Pieces), func(i int) (id, name string) { return st.PieceLabel(i), st.Pieces[i].Name })
	doc.Platers = namesFor(len(st.Platers), func(i int) (id, name string) { return st.Platers[i].ID, st.Platers[i].Name })
	doc.Makers = namesFor(len(st.Makers), func(i int) (id, name string) { return st.Makers[i].ID, st.Makers[i].Name })
	doc.Vendors = namesFor(len(st.Vendors), func(i int) (id, name string) { return st.Vendors[i].ID, st.Vendors[i].Name })
	return doc
}

func namesFor(n int, of func(i int) (id, name string)) map[string]string {
	names := map[string]string{}
	for i := range n {
		if id, name := of(i); name != id && name != "" {
			names[id] = name
		}
	}
	return names
}
