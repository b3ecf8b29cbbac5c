package solver

// memory is what a Solver keeps from one solve for the next: multipliers of the
// whole problem, which make a bound at once, and good picks, most of which still
// fit when one thing is changed. Neither can make an answer wrong: a bound holds
// for any multipliers, and every pick is judged anew.
type memory struct {
	row  map[int]float64 // by row of the problem, in the sense "at most"
	link map[link]float64
	min  []float64
	need map[link]float64

	picks [][]int // the latest first
	trail []found // good solutions of the last solve besides its best
}

// mostPicks is how many picks are kept.
const mostPicks = 12

// learn keeps the multipliers of an instance that still has all its columns.
func (m *memory) learn(in *instance, y *duals) {
	m.row, m.link, m.need = map[int]float64{}, map[link]float64{}, map[link]float64{}
	for r := range in.rows {
		m.row[in.rows[r].orig] = y.row[r]
	}
	for l, k := range in.links {
		m.link[k] = y.link[l]
	}
	for i, k := range in.needPairs() {
		m.need[k] = y.need[i]
	}
	m.min = append(m.min[:0], y.min...)
}

// recall gives the multipliers for an instance; zeros where nothing is known.
func (m *memory) recall(in *instance) *duals {
	y := in.zeroDuals()
	if m.row == nil {
		return y
	}
	for r := range y.row {
		y.row[r] = m.row[in.rows[r].orig]
	}
	for l, k := range in.links {
		y.link[l] = m.link[k]
	}
	for i, k := range in.needPairs() {
		y.need[i] = m.need[k]
	}
	copy(y.min, m.min)
	return y
}

// keep remembers a pick.
func (m *memory) keep(pick []int) {
	for i, have := range m.picks {
		same := true
		for g, c := range have {
			same = same && c == pick[g]
		}
		if same {
			m.picks = append(m.picks[:i], m.picks[i+1:]...)
			break
		}
	}
	m.picks = append([][]int{pick}, m.picks...)
	m.picks = m.picks[:min(len(m.picks), mostPicks)]
}
