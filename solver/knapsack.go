package solver

// knapsack is a bound in which one row is kept whole: all else is priced, as in
// lagrangian, but of the picks of the blocks only those count that keep the row. With
// whole units of what the columns take up of it, the best of them is found by dynamic
// programming over the blocks, as in the multiple-choice knapsack problem.
//
// Where units are too fine, what the columns take up and the room there is are counted
// in coarser ones, both rounded down: every pick that keeps the row still fits, and some
// more do.
type knapsack struct {
	in    *instance
	row   int
	units int  // room for so many
	exact bool // in units as fine as all sizes are
	parts []sack
	cells []cell
	work  int // steps of one evaluation, about
}

// cell is columns of a group that go together with the same columns of others and take
// up as much of the row: only the cheapest counts.
type cell struct {
	cols []int
	size int // units it takes up
}

// sack is a block: the choices there are in it, each a cell for every group.
type sack struct {
	groups  int
	choices []int32 // so many cells each as there are groups
	size    []int   // per choice, the units it takes up
}

// cells are those of choice n.
func (s *sack) cells(n int) []int32 { return s.choices[n*s.groups : (n+1)*s.groups] }

// mostUnits is the finest that the room in a row is divided. Tests set it.
var mostUnits = int64(1200)

// mostWork bounds the steps of one evaluation: where it takes more, the row is priced
// like the others.
const mostWork = 1_000_000

// mostChoices is how many choices there may be in a block of several groups.
const mostChoices = 20_000

// newKnapsack keeps row r whole in d. Choices that come to more than gap beyond the bound
// b, which prices all rows, are left out. Nil: the row leaves room for everything in d, for
// nothing, or there is too much to go through.
func (in *instance) newKnapsack(d *domain, r int, b *bound, gap float64) *knapsack {
	least, room, unit := in.unitsOf(d, r)
	if unit == 0 {
		return nil
	}
	exact := room/unit <= mostUnits
	if !exact {
		unit *= (room/unit + mostUnits - 1) / mostUnits
	}
	k := &knapsack{in: in, row: r, units: int(room / unit), exact: exact}
	for i := range in.blocks {
		if !k.fill(d, i, least, unit, b, gap) || k.work > mostWork {
			return nil
		}
	}
	return k
}

// unitsOf is, of row r in d, the least that each group takes up, the room that is left
// beside that, and the largest unit that all else is made of: 0 where the row leaves room
// for everything or for nothing.
func (in *instance) unitsOf(d *domain, r int) (least []int64, room, unit int64) {
	least, most, unit := in.aboveLeast(d, r)
	room = in.rows[r].limit - in.leastSwitches(d)[r]
	for _, v := range least {
		room -= v
	}
	if room < 0 || most <= room {
		return nil, 0, 0
	}
	return least, room, unit
}

// aboveLeast is, of row r in d, the least that each group takes up, the most that all can take
// up above that, and the largest unit that what is above is made of, 0 where nothing is.
func (in *instance) aboveLeast(d *domain, r int) (least []int64, most, unit int64) {
	least = make([]int64, len(in.groups))
	for g, span := range in.groups {
		lo, hi := Limit, -Limit
		for c := in.first(d, g); c < span[1]; c = d.alive.next(c+1, span[1]) {
			v := coefOf(in.cols[c].terms, r)
			lo, hi = min(lo, v), max(hi, v)
		}
		for c := in.first(d, g); c < span[1]; c = d.alive.next(c+1, span[1]) {
			unit = gcd(unit, coefOf(in.cols[c].terms, r)-lo)
		}
		least[g] = lo
		most += hi - lo
	}
	return least, most, unit
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// keepRow is the best of the bounds that keep one of the dense rows of d whole, with the
// multipliers y of the bound plain, which prices them all: nil where there is none. What it
// rules out is in no solution as good as the best.
func (s *search) keepRow(d *domain, plain *bound, y *duals, best *incumbent) (kept *bound) {
	if s.leave.knapsack || s.leave.cuts || s.leave.fixing {
		return nil
	}
	gap := float64(best.reach(s.other)-1) - plain.value + 2*plain.err
	for r := range s.in.rows {
		if !s.in.rows[r].dense {
			continue
		}
		k := s.in.newKnapsack(d, r, plain, gap)
		if k == nil {
			continue
		}
		if b := k.bound(d, y.without(r)); kept == nil || b.value > kept.value {
			kept = b
		}
		if k.exact {
			continue
		}
		if b := k.bound(d, y); b.value > kept.value {
			kept = b // where more fits than does, it may be worth pricing that
		}
	}
	return kept
}

// without are the multipliers with nothing for row r: where the row is kept in its own
// units its price only lowers the bound.
func (y *duals) without(r int) *duals {
	out := *y
	out.row = append([]float64(nil), y.row...)
	out.row[r] = 0
	return &out
}
