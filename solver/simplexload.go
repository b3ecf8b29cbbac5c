package solver

import "math"

// start scales the rows and takes the columns over; the basis is one that is feasible for
// the dual method where costs are not negative: of every equation the cheapest column
// that is in no other equation, else the row's own variable.
func (s *simplex) start() {
	m := s.m
	s.scaleRows()
	s.costScale = costScale(s.l.cost)
	s.cols.reset()
	s.head, s.weight = make([]int32, m), make([]float64, m)
	s.y, s.rho, s.alpha, s.tau = make([]float64, m), make([]float64, m), make([]float64, m), make([]float64, m)
	for i := range m {
		s.cols.put(int32(i), 1)
		s.cols.end()
		s.append(0, -s.l.rowHi[i]*s.rowScale[i], -s.l.rowLo[i]*s.rowScale[i])
		s.head[i], s.weight[i], s.at[i] = int32(i), 1, basic
	}
	s.widen()
	s.crash()
}

// append makes a variable, at a bound that is finite.
func (s *simplex) append(cost, lo, up float64) {
	s.cost, s.shifted = append(s.cost, cost), append(s.shifted, cost)
	s.lo, s.up = append(s.lo, lo), append(s.up, up)
	s.x, s.d = append(s.x, 0), append(s.d, 0)
	s.at = append(s.at, 0)
	s.at[len(s.at)-1] = s.side(len(s.at) - 1)
}

// power is the power of two next to v.
func power(v float64) float64 {
	_, e := math.Frexp(v)
	return math.Ldexp(1, e-1)
}

// rubbish is what only rounding can have left in a column: sums of terms that cancel.
func rubbish(col []entry) float64 {
	most := 0.0
	for _, e := range col {
		most = max(most, math.Abs(e.coef))
	}
	return 1e-12 * most
}

// scaleRows brings the smallest and the largest coefficient of every row equally far from
// one.
func (s *simplex) scaleRows() {
	least, most := make([]float64, s.m), make([]float64, s.m)
	for _, col := range s.l.cols {
		tiny := rubbish(col)
		for _, e := range col {
			v := math.Abs(e.coef)
			if v <= tiny {
				continue
			}
			if least[e.row] == 0 || v < least[e.row] {
				least[e.row] = v
			}
			most[e.row] = max(most[e.row], v)
		}
	}
	s.rowScale = make([]float64, s.m)
	for i := range s.rowScale {
		s.rowScale[i] = 1
		if most[i] > 0 {
			s.rowScale[i] = power(1 / math.Sqrt(least[i]*most[i]))
		}
	}
}

// costScale brings the mean of the costs near one; in logarithms, for some are far larger
// than the others.
func costScale(cost []float64) float64 {
	sum, n := 0.0, 0
	for _, c := range cost {
		if c != 0 {
			sum += math.Log2(math.Abs(c))
			n++
		}
	}
	if n == 0 {
		return 1
	}
	return math.Ldexp(1, -int(sum/float64(n)))
}

// update brings the bounds up to date, and takes over columns that are new.
func (s *simplex) update() {
	s.widen()
	for j := range s.l.cols {
		k := s.m + j
		s.lo[k], s.up[k] = s.l.lo[j]/s.colScale[j], s.l.up[j]/s.colScale[j]
		if s.at[k] == basic || (s.at[k] == atUpper && !math.IsInf(s.up[k], 1) && !s.fixed(k)) {
			continue
		}
		s.at[k] = s.side(k)
	}
}

func (s *simplex) widen() {
	from := len(s.colScale)
	if from == len(s.l.cols) {
		return
	}
	for j := from; j < len(s.l.cols); j++ {
		most := 0.0
		for _, e := range s.l.cols[j] {
			most = max(most, math.Abs(e.coef)*s.rowScale[e.row])
		}
		scale := 1.0
		if most > 0 {
			scale = power(1 / most)
		}
		s.colScale = append(s.colScale, scale)
		tiny := rubbish(s.l.cols[j])
		for _, e := range s.l.cols[j] {
			if math.Abs(e.coef) > tiny {
				s.cols.put(int32(e.row), e.coef*s.rowScale[e.row]*scale)
			}
		}
		s.cols.end()
		s.append(s.l.cost[j]*scale*s.costScale, s.l.lo[j]/scale, s.l.up[j]/scale)
	}
	s.byRow()
	s.row.grow(s.variables())
}

// byRow lays the columns of the linear program out by rows.
func (s *simplex) byRow() {
	s.rows.reset()
	count := make([]int32, s.m)
	first := s.cols.start[s.m]
	for _, i := range s.cols.at[first:] {
		count[i]++
	}
	total := int32(0)
	for i, n := range count {
		count[i] = total
		total += n
		s.rows.start = append(s.rows.start, total)
	}
	s.rows.at = append(s.rows.at, make([]int32, total)...)
	s.rows.val = append(s.rows.val, make([]float64, total)...)
	for j := s.m; j < s.variables(); j++ {
		at, val := s.cols.list(j)
		for n, i := range at {
			s.rows.at[count[i]], s.rows.val[count[i]] = int32(j), val[n]
			count[i]++
		}
	}
}

// crash chooses the first basis.
func (s *simplex) crash() {
	best := make([]int32, s.m)
	price := make([]float64, s.m)
	for j := s.m; j < s.variables(); j++ {
		at, val := s.cols.list(j)
		equation, n := -1, 0
		for k, i := range at {
			if s.fixed(int(i)) {
				equation = k
				n++
			}
		}
		if n != 1 || val[equation] < pivotShare || s.fixed(j) {
			continue
		}
		i, p := at[equation], s.cost[j]/val[equation]
		if best[i] == 0 || p < price[i] {
			best[i], price[i] = int32(j), p
		}
	}
	for i, j := range best {
		if j > 0 {
			s.head[i], s.at[j], s.at[i] = j, basic, held
		}
	}
}
