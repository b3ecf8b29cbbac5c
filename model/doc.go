// Package model is where files and solver meet. It holds no code: its packages lie
// along the data, and each imports only what stands left of or above it.
//
//	catalog.State
//	    │  choice       what can be done with every piece for a slot, and what that costs
//	    ▼
//	[]plan.Choice
//	    │  program      lines, rules and rows: the integer program, solved by package
//	    │               solver and read back; sharedspare is its arithmetic of one spare
//	    │               behind two slots
//	    ▼
//	plan.Plan ──────── check   adds everything up again, from the state alone
//	    │
//	    ├─ joint        one plan for several jobs, and who pays what
//	    ├─ ask          the next questions: why, what more grade costs, what to hunt for,
//	    │               what clashes, other plans, what to find out, where to stop
//	    ├─ risk         how it may turn out; what outcomes teach
//	    └─ paper        lots, purchases, left-overs, the owner's quote
//
// Packages plan and check know nothing of how a program is made, so that the compiler
// proves that the judge shares nothing with the judged. Package seeded makes the jobs of
// the race; what lies under internal serves tests alone.
package model
