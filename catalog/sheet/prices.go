package sheet

import (
	"fmt"

	"brightset/catalog"
)

// A list of prices has a row for every part or piece that a plater has a price for, and
// for each metal where they differ: a row without a metal is for all others.

// pricesToTOML writes the tables [plater.X.level.Y.price.PART]. Rows of one part stand
// together, for TOML takes a table only once.
func pricesToTOML(t *table, out *writer) (problems []Problem) {
	type what struct{ plater, level, part string }
	rows, order := map[what][]row{}, []what(nil)
	for _, r := range t.rows {
		problems = append(problems, r.missing(t, Prices)...)
		w := what{r.cells["plater"], r.cells["level"], r.cells["part"]}
		if w.plater == "" || w.level == "" || w.part == "" || r.cells["price"] == "" {
			continue // which is reported
		}
		if rows[w] == nil {
			order = append(order, w)
		}
		rows[w] = append(rows[w], r)
	}
	for _, w := range order {
		out.line(place{}, "")
		out.line(place{row: rows[w][0].number, column: "part"}, "[plater.%s.level.%s.price.%s]",
			key(w.plater), key(w.level), key(w.part))
		first := map[string]int{}
		for _, r := range rows[w] {
			metal := r.cells["metal"]
			if metal == "" {
				metal = "other"
			}
			if at, twice := first[metal]; twice {
				problems = append(problems, Problem{Row: r.number, Column: "part",
					Message: fmt.Sprintf("a price for %s in %s is in row %d already", shown(w.part), metal, at),
					Hint:    "leave one of the two out"})
				continue
			}
			first[metal] = r.number
			v := r.cells["price"]
			out.line(place{r.number, "price", v}, "%s = %s", key(metal), value(v, money, t.comma))
		}
	}
	return problems
}

// priceRows are the prices that platers have by the piece: one row where it is the same for
// all metals.
func priceRows(st *catalog.State) (rows [][]string) {
	for q := range st.Platers {
		plater := &st.Platers[q]
		for l := range plater.Levels {
			level := &plater.Levels[l]
			for _, p := range level.Prices {
				add := func(metal string, cost catalog.Cents) {
					rows = append(rows, []string{plater.ID, level.Name, p.Of, metal, catalog.FormatMoney(cost)})
				}
				if sameForAll(p.Cost) {
					add("", p.Cost[0].V)
					continue
				}
				for m, v := range p.Cost {
					if v.Set {
						add(st.Tables.Metals[m].Name, v.V)
					}
				}
			}
		}
	}
	return rows
}

func sameForAll(cost []catalog.Val[catalog.Cents]) bool {
	for _, v := range cost {
		if !v.Set || v.V != cost[0].V {
			return false
		}
	}
	return len(cost) > 0
}
