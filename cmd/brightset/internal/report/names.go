package report

import (
	"fmt"

	"brightset/catalog"
)

// named gives "Name (id)", or the id alone where there is no other name.
func named(name, id string) string {
	if name == "" || name == id {
		return id
	}
	return fmt.Sprintf("%s (%s)", name, id)
}

// source says where a piece comes from: the customer, the shop, or the vendor.
func source(st *catalog.State, p *catalog.Piece) string {
	switch p.Side {
	case catalog.Shops:
		return "the shop's"
	case catalog.Vendors:
		return st.Vendors[p.Vendor].ID + "'s"
	}
	if p.Off {
		return "the customer's, off the object"
	}
	return "the customer's"
}

// gradeWord is the word of the grade table that g reaches, or "".
func gradeWord(st *catalog.State, g catalog.Centi) string {
	word := ""
	for _, w := range st.Tables.Grades { // ascending
		if w.Value <= g {
			word = w.Name
		}
	}
	return word
}
