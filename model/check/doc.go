// Package check is the auditor. Check derives every choice of a plan again from the
// state, adds every cost and every rule up, and tells what doesn't hold:
//
//	catalog.State ─┐
//	               ├──► Check ──► []Violation, none for a sound plan
//	plan.Plan ─────┘
//
// It imports catalog and plan alone, so it shares no code with what makes the choices and
// the program, and a fault there can't hide itself. What it needs it says again in its
// own words. Joint does the same for a plan of several jobs.
package check
