package report

import "brightset/catalog"

// source says whose a piece is: the customer's, the shop's, or that a vendor has it.
func source(st *catalog.State, p *catalog.Piece) string {
	switch p.Side {
	case catalog.Shops:
		return "the shop's"
	case catalog.Vendors:
		return "at " + st.Vendors[p.Vendor].Name
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
