package solver

import "slices"

// pare counts every dense row from the least that each group takes up of it in d, and in the
// largest unit that all of it is made of: what a row leaves room for is whole in those units,
// and sums of multiples of rows stay small.
func (in *instance) pare(d *domain) {
	in.switches = slices.Clone(in.switches)
	least := make([][]int64, len(in.rows)) // per row and group; nil: as it is
	unit := make([]int64, len(in.rows))
	var dense []int
	for r := range in.rows {
		k := &in.rows[r]
		if !k.dense {
			continue
		}
		dense = append(dense, r)
		least[r], _, unit[r] = in.aboveLeast(d, r)
		unit[r] = in.pareUnit(r, unit[r])
		for _, v := range least[r] {
			k.limit -= v
		}
		k.limit, _ = floorDiv(k.limit, unit[r])
		in.scale[r] = 1
	}
	for c := d.alive.next(0, len(in.cols)); c < len(in.cols); c = d.alive.next(c+1, len(in.cols)) {
		k := &in.cols[c]
		terms := make([]Term, 0, len(k.terms)+len(dense))
		for _, r := range dense {
			v := (coefOf(k.terms, r) - least[r][k.group]) / unit[r]
			if in.scale[r] = max(in.scale[r], float64(v)); v != 0 {
				terms = append(terms, Term{r, v})
			}
		}
		for _, t := range k.terms {
			if least[t.Row] == nil {
				terms = append(terms, t)
			}
		}
		k.terms = terms
	}
	for h := range in.switches {
		k := &in.switches[h]
		k.terms = slices.Clone(k.terms)
		for i, t := range k.terms {
			if least[t.Row] != nil {
				k.terms[i].Coef = t.Coef / unit[t.Row]
				in.scale[t.Row] = max(in.scale[t.Row], float64(magnitude(k.terms[i].Coef)))
			}
		}
	}
}

// pareUnit is the largest unit that what a row has above the least, and what switches have, is
// made of; charges are of any size.
func (in *instance) pareUnit(r int, unit int64) int64 {
	for h := range in.switches {
		unit = gcd(unit, magnitude(coefOf(in.switches[h].terms, r)))
	}
	if in.rows[r].charges || unit == 0 {
		return 1
	}
	return unit
}
