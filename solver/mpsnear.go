package solver

import "fmt"

// nearRows are the rows of a near rule: for every two of its groups and every value a
// of the first, columns of the first at most a, and of the second more than a +
// tolerance, exclude each other. A row that would hold nothing of the second has no
// name.
type nearRows struct {
	values [][]int64    // by place of the first group, those that occur, rising
	names  [][][]string // by places of both groups, and value
}

func (m *mps) near(i int) nearRows {
	n := &m.p.WithinTolerance[i]
	rows := nearRows{names: make([][][]string, len(n.Groups))}
	for a := range n.Groups {
		rows.values = append(rows.values, distinct(n.Values[a]))
	}
	for a, g := range n.Groups {
		rows.names[a] = make([][]string, len(n.Groups))
		for b, k := range n.Groups {
			if g == k {
				continue
			}
			for j, v := range rows.values[a] {
				name := ""
				if last := len(rows.values[b]) - 1; last >= 0 && rows.values[b][last] > v+n.Tolerance {
					name = m.row(fmt.Sprintf("d%d_%d_%d_%d", i, g, k, j), 'L', 1)
				}
				rows.names[a][b] = append(rows.names[a][b], name)
			}
		}
	}
	return rows
}

// entries adds those of a column of the group at one place of the rule.
func (r *nearRows) entries(list []mpsEntry, n *WithinTolerance, place, column int) []mpsEntry {
	w := n.Values[place][column]
	for a := range n.Groups {
		if a != place { // its group is the second
			for j, name := range r.names[a][place] {
				if w > r.values[a][j]+n.Tolerance {
					list = append(list, mpsEntry{name, 1})
				}
			}
			continue
		}
		for b := range n.Groups {
			for j, name := range r.names[a][b] {
				if name != "" && w <= r.values[a][j] {
					list = append(list, mpsEntry{name, 1})
				}
			}
		}
	}
	return list
}
