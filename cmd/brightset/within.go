package main

import (
	"fmt"

	"github.com/spf13/pflag"
)

// within is how close to the cheapest a plan has to be proven before the search ends.
type within struct {
	percent float64
	flags   *pflag.FlagSet
}

// usualWithin is what several jobs are planned to, in percent, where nothing is said.
const usualWithin = 0.1

// flag declares --within.
func (w *within) flag(flags *pflag.FlagSet) {
	w.flags = flags
	flags.Float64Var(&w.percent, "within", usualWithin, "stop at a plan that is proven to be within `PERCENT` of the "+
		"cheapest; 0 asks for the whole proof (default: 0 for one job, 0.1 for several)")
}

// given says whether it was typed.
func (w *within) given() bool { return w.flags.Changed("within") }

// check refuses a gap that is none.
func (w *within) check(command string) error {
	if !(w.percent >= 0 && w.percent <= 50) {
		return usageError{fmt.Sprintf("within %v %% is not between 0 and 50; type: brightset %s --within 0.1",
			w.percent, command)}
	}
	return nil
}

// gap is for so many jobs, as a share of the total.
func (w *within) gap(jobs int) float64 {
	if jobs == 1 && !w.given() {
		return 0
	}
	return w.percent / 100
}
