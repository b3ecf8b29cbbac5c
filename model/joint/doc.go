// Package joint makes one plan for several jobs of a shop:
//
//	programs of the jobs ──► one program (assembly.go) ──► solver ──► plan.Joint
//	                         common lots, vendors, bundles,           │
//	                         drawers' pieces once                     ├─ charges.go, split.go: who pays what
//	                                                                  └─ worth.go: what a spare is worth to each
//
// Every job keeps its own target, chance, date and budget.
package joint
