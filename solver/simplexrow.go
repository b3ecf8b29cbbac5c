package solver

// sparseRow is the row of a basis' inverse times the matrix: a value per variable, and
// which are not nothing.
type sparseRow struct {
	val    []float64
	list   []int32
	listed []bool
}

func (r *sparseRow) grow(n int) {
	for len(r.val) < n {
		r.val, r.listed = append(r.val, 0), append(r.listed, false)
	}
}

func (r *sparseRow) reset() {
	for _, j := range r.list {
		r.val[j], r.listed[j] = 0, false
	}
	r.list = r.list[:0]
}

// priceRow works out the row of a place: rho is that of the basis' inverse, row what
// becomes of it for every variable that may come in.
func (s *simplex) priceRow(place int) {
	clear(s.rho)
	s.rho[place] = 1
	s.fac.backward(s.rho)
	r := &s.row
	r.reset()
	for i, v := range s.rho {
		if v == 0 || (v < nothing && v > -nothing) {
			s.rho[i] = 0
			continue
		}
		if s.at[i] < basic {
			r.add(int32(i), v)
		}
		at, val := s.rows.list(i)
		for n, j := range at {
			if s.at[j] < basic {
				r.add(j, v*val[n])
			}
		}
	}
}

func (r *sparseRow) add(j int32, v float64) {
	if !r.listed[j] {
		r.listed[j] = true
		r.list = append(r.list, j)
	}
	r.val[j] += v
}

// column works out what becomes of a variable's column in the basis.
func (s *simplex) column(v []float64, j int) {
	clear(v)
	s.spread(v, j, 1)
	s.fac.forward(v)
}
