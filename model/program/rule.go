package program

import (
	"brightset/catalog"
	"brightset/model/plan"
)

// Role is what a choice is wanted for.
type Role int

const (
	Planned Role = iota // k: it is what is meant to hang
	Reserve             // f: it is held in case the planned one fails
)

// Reason says in words why a rule keeps a choice out.
type Reason struct {
	Rule string // floor, fresh, redone, lasting, bears, breakage, days, ban, lock
	Why  string
}

// rules are the rules a single choice can break, in files by what they are about.
// Each gives "" where the choice keeps it.
var rules = []struct {
	name string
	why  func(st *catalog.State, c *plan.Choice, role Role) string
}{
	{"floor", floorRule},
	{"fresh", freshRule},
	{"redone", redoneRule},
	{"lasting", lastingRule},
	{"bears", bearsRule},
	{"breakage", breakageRule},
	{"days", daysRule},
	{"ban", banRule},
	{"lock", lockRule},
}

// Admit gives every reason why a choice is out in a role; none where it is in.
func Admit(st *catalog.State, c *plan.Choice, role Role) []Reason {
	var out []Reason
	for _, r := range rules {
		if why := r.why(st, c, role); why != "" {
			out = append(out, Reason{r.name, why})
		}
	}
	return out
}

// Admitted is Admit as a yes or no.
func Admitted(st *catalog.State, c *plan.Choice, role Role) bool { return len(Admit(st, c, role)) == 0 }
