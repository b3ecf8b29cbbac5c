package sheet

import (
	"fmt"

	"brightset/catalog"
)

// names are the ids of findings or quotes: those in the table, and for rows
// without one a name after the defect or the plater.
type names struct {
	where string // the column a mistake about a table's name is about
	after string // the column that gives a name
	taken map[string]bool
	last  map[string]int // the number given last, by piece and name
}

func newNames(t *table, w What) *names {
	n := &names{where: "piece", after: "defect", taken: map[string]bool{}, last: map[string]int{}}
	if w == Quotes {
		n.after = "plater"
	}
	for _, r := range t.rows {
		n.taken[r.cells["piece"]+"\x00"+r.cells["id"]] = true
	}
	return n
}

// of gives the id of a row; "haze" and then "haze-2" where it has none.
func (n *names) of(r row) string {
	if r.cells["id"] != "" {
		return r.cells["id"]
	}
	name := r.cells[n.after]
	if name == "" {
		name = "unnamed" // what is missing has been reported
	}
	base := r.cells["piece"] + "\x00" + name
	for {
		n.last[base]++
		id := name
		if i := n.last[base]; i > 1 {
			id = fmt.Sprintf("%s-%d", name, i)
		}
		if full := r.cells["piece"] + "\x00" + id; !n.taken[full] {
			n.taken[full] = true
			return id
		}
	}
}

func slotIDs(st *catalog.State, slots []int) (out []string) {
	for _, s := range slots {
		out = append(out, st.Slots[s].ID)
	}
	return out
}
