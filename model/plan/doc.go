// Package plan says what a plan is: one Line per slot with its Choice and what is held
// in reserve, the Charges that belong to no line, and what is known of its being the
// cheapest.
//
//	choice ──► Choice ──► Line ─┐
//	                            ├──► Plan ──► check, ask, risk, paper, the user
//	program ──► Charge ─────────┘
//
// It also tells what two plans do otherwise (Differences, Causes), what came of the plan
// that was kept (Changes since), and how pieces and choices are called. It decides
// nothing and finds nothing.
package plan
