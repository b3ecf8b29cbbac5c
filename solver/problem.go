// Package solver solves integer programs of one shape exactly: pick one column
// from every group so that the total of costs and charges is least. It knows
// nothing of what the columns stand for.
//
// All numbers are integers and every answer is exact: "optimal" means that no
// choice of columns has a total that is smaller by even one.
package solver

// Tag is the caller's own mark on a constraint. A Change can switch off all
// constraints that carry a tag. The empty tag can't be switched off.
type Tag string

// Problem is an integer program. It is not changed once a Solver was made for
// it. Absolute values of all numbers are at most 2^53, and so are all sums that
// can arise; New says where they are not.
type Problem struct {
	Groups          []Group
	Switches        []Switch
	Rows            []Row
	WithinTolerance []WithinTolerance
	AllEqual        []AllEqual

	// Uncharged leaves the charges of switches out of the objective. They
	// still count in rows with Charges.
	Uncharged bool

	// Parts, if given, are the first groups of parts that have little in common,
	// ascending and beginning with 0. It changes no answer, only how it is found.
	Parts []int
}

// Group is a set of columns of which exactly one is picked.
type Group struct {
	Name    string
	Columns []Column
}

// Column is one way to fill a group.
type Column struct {
	Name  string
	Cost  int64
	Tie   [2]int64 // less is better, first then second, among solutions of equal total
	Terms []Term   // coefficients in rows, ascending by index, none twice
	Needs []int    // switches that are on if this column is picked, ascending
	Loads []Load   // what it counts towards minimums of switches, ascending
}

// Term is a coefficient in a row.
type Term struct {
	Row  int
	Coef int64
}

// Load is an amount, not negative, that a column counts towards the minimum of
// a switch. The column also needs that switch.
type Load struct {
	Switch int
	Amount int64
}

// Switch is a thing that is on or off for the solution as a whole. While on it
// charges Fixed + max(0, Minimum - loads of the picked columns). It is on if a
// picked column or another switch that is on needs it, and only then, unless it
// is Voluntary: then it may be on without being needed.
//
// What it charges goes to an Account. The charges of account 0 count in the
// objective; those of any other account only in rows with Charges of that account.
type Switch struct {
	Name      string
	Account   int // from 0 to the number of switches and rows
	Fixed     int64
	Minimum   int64  // not negative
	Needs     []int  // other switches that are on if this one is; no cycles
	Terms     []Term // coefficients in rows while on
	Voluntary bool
	Tag       Tag // switched off: it charges nothing, but its terms stand
}

// Sense is the direction of a row.
type Sense int

const (
	AtMost Sense = iota
	AtLeast
)

// Row limits the sum of its coefficients over picked columns and switches that
// are on; with Charges, plus all charges to its Account.
type Row struct {
	Name    string
	Sense   Sense
	Limit   int64
	Charges bool
	Account int // from 0 to the number of switches and rows
	Tag     Tag
}

// WithinTolerance asks that the values of the picked columns of its groups lie within
// Tolerance of each other, every two of them.
type WithinTolerance struct {
	Name      string
	Groups    []int     // ascending
	Values    [][]int64 // per group of Groups, per column
	Tolerance int64     // not negative
	Tag       Tag
}

// AllEqual asks that the picked columns of its groups carry one label. A column
// with a negative label goes with any.
type AllEqual struct {
	Name   string
	Groups []int   // ascending
	Labels [][]int // per group of Groups, per column
	Tag    Tag
}

// Pick names one column of one group.
type Pick struct {
	Group, Column int
}

// Change is what differs from the Problem in one solve. The zero Change solves
// the problem as it stands.
type Change struct {
	Fix    []Pick    // these columns are picked
	Ban    []Pick    // these are not
	Limits []LimitTo // other limits of rows
	Costs  []CostTo  // other costs of columns
	Fixed  []FixedTo // other fixed charges of switches
	Off    []Tag     // constraints switched off
	Below  *int64    // only totals below this are of interest
	Any    bool      // with Below: the first solution that is found below it ends the search
	Start  [][]int   // picks to try first: one column per group
}

// LimitTo gives a row another limit.
type LimitTo struct {
	Row   int
	Limit int64
}

// CostTo gives a column another cost.
type CostTo struct {
	Pick
	Cost int64
}

// FixedTo gives a switch another fixed charge.
type FixedTo struct {
	Switch int
	Fixed  int64
}

// accounts is how many accounts there are, at least 1.
func (p *Problem) accounts() int {
	most := 0
	for h := range p.Switches {
		most = max(most, p.Switches[h].Account)
	}
	for r := range p.Rows {
		most = max(most, p.Rows[r].Account)
	}
	return most + 1
}
