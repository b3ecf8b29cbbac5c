// Package program makes the integer program of a state, has it solved, and reads the plan
// back:
//
//	choices ──► rules ──► lines ──► dominance ──► columns, rows, switches ──► solver
//	            rule_*.go lines.go  dominance.go  row_*.go, charges.go, ...    │
//	plan.Plan ◄── check.Check ◄── decode.go ◄── picks ◄────────────────────────┘
//
// A line is a choice and what is held in reserve for it. Every family of constraints is a
// file, whose comment holds the algebra and the rule in words: rule_X.go where it is about
// one choice, row_X.go where it is about the set. Whoever makes a column reads it back
// (columns.go and decode.go), and no plan leaves Solve that check does not confirm.
// An Explorer asks one program again and again with something changed.
package program
