package sheet

// cameOff says of the customer's originals of a list of what came off the object that they
// did, where their row doesn't say: what else is in it is a spare, bought, or from a drawer.
func (t *table) cameOff() {
	for _, r := range t.rows {
		owner := r.cells["owner"]
		if r.cells["off"] == "" && r.cells["kind"] == "original" && (owner == "" || owner == "customer") {
			r.cells["off"] = "true"
		}
	}
}
