package solver

// instance is a Problem with a Change applied, laid out for the search: columns
// in one list, rows all "at most", needs closed over switches that need
// switches, rows that bind nothing left out. It keeps only columns that are
// still possible; orig leads back.
type instance struct {
	groups    [][2]int // first and past-last column of each group
	cols      []col
	rows      []row
	switches  []sw
	near      []nearRule
	same      []sameRule
	alike     []inOrder // nil: not looked for yet
	links     []link    // one per group and switch some column of the group needs, then those of rows
	blocks    []block
	blockOf   []int       // per group
	classOf   []int       // per column of a larger block, its class
	voluntary []int       // switches that may be on without being needed
	paid      []int       // rows that charges count in
	every     []int       // all rows
	entire    bool        // every column is in the linear program from the start
	charged   bool        // charges to account 0 count in the objective
	accounts  int         // at least 1
	widest    float64     // widest spread of costs within a group, at least 1
	scale     []float64   // per row, the largest coefficient there is, at least 1
	halt      func() bool // a limit has been reached
	without   without
}

type col struct {
	group  int
	orig   int
	number int64 // what its rank goes by
	common bool  // another group has the same column
	cost   int64
	tie    ties
	terms  []Term
	needs  []int // closed
	links  []int // those of its group parallel to needs, then those of rows
	loads  []Load
	near   []int64 // values in the near rules of its group
	same   []int   // labels in the same rules of its group
}

type row struct {
	limit   int64
	charges bool
	account int
	orig    int
	dense   bool // most groups take part
	lowered bool // a column or a switch has a negative term in it
}

type sw struct {
	fixed, minimum int64
	account        int
	needs          []int // closed
	terms          []Term
	voluntary      bool
}

// link is of a group and a switch; of a row where group is len(groups) and more, which is
// then that much more than the row's place in the problem.
type link struct{ group, sw int }

// nearRule and sameRule: at is, per group, the place of the rule among the near
// values or same labels of the group's columns.
type nearRule struct {
	groups, at []int
	tol        int64
}

type sameRule struct {
	groups, at []int
}

// byAccount is a sum for every account, nothing yet.
func (in *instance) byAccount() []int64 { return make([]int64, in.accounts) }

// pays says whether the charges of switch h count in row r.
func (in *instance) pays(r, h int) bool {
	return in.rows[r].charges && in.rows[r].account == in.switches[h].account
}

// objective says whether the charges of switch h count in the objective.
func (in *instance) objective(h int) bool { return in.charged && in.switches[h].account == 0 }

// compact lays the terms and links of the columns end to end, in the order in
// which every pass reads them, and looks up what is widest.
func (in *instance) compact() {
	terms, links := 0, 0
	for c := range in.cols {
		terms += len(in.cols[c].terms)
		links += len(in.cols[c].needs)
	}
	t, l := make([]Term, 0, terms), make([]int, links)
	in.scale = make([]float64, len(in.rows))
	for c := range in.cols {
		k := &in.cols[c]
		from := len(t)
		t = append(t, k.terms...)
		k.terms = t[from:len(t):len(t)]
		k.links, l = l[:len(k.needs):len(k.needs)], l[len(k.needs):]
		for _, m := range k.terms {
			in.scale[m.Row] = max(in.scale[m.Row], float64(magnitude(m.Coef)))
		}
	}
	in.widen()
	for h := range in.switches {
		for _, m := range in.switches[h].terms {
			in.scale[m.Row] = max(in.scale[m.Row], float64(magnitude(m.Coef)))
		}
	}
	for r := range in.scale {
		in.scale[r] = max(in.scale[r], 1)
	}
}

// widen looks up the widest spread of costs.
func (in *instance) widen() {
	in.widest = 1
	for _, span := range in.groups {
		lo, hi := Limit, -Limit
		for c := span[0]; c < span[1]; c++ {
			lo, hi = min(lo, in.cols[c].cost), max(hi, in.cols[c].cost)
		}
		in.widest = max(in.widest, float64(hi-lo))
	}
}

// keep is the instance with only the columns that are alive, blocks yet to be
// found.
func (in *instance) keep(alive bits) *instance {
	out := &instance{
		rows:     append([]row(nil), in.rows...),
		switches: in.switches,
		charged:  in.charged,
		accounts: in.accounts,
		halt:     in.halt,
		without:  in.without,
	}
	out.cols = make([]col, 0, alive.count())
	for _, span := range in.groups {
		first := len(out.cols)
		for c := alive.next(span[0], span[1]); c < span[1]; c = alive.next(c+1, span[1]) {
			out.cols = append(out.cols, in.cols[c])
		}
		out.groups = append(out.groups, [2]int{first, len(out.cols)})
	}
	out.near, out.same, out.alike = in.near, in.same, in.alike
	out.index()
	return out
}
