// Package choice makes choices of what was found on the pieces:
//
//	piece, findings, quotes ──► works ──► who does them ──► cost, breakage, grade, days
//
// Choices and Exclusions look at every piece that fits a slot and give what can be done with it
// as it is (asis.go), cleaned (clean.go), plated by a quote (quote.go) or by an estimate
// (plate.go), at its stage (stage.go), and why the rest can't be done. grade.go reads the
// findings, works.go what mends them, cost.go and line.go add up what a choice and a line
// of two choices come to, spread.go how far that may be off, assumption.go which starting
// values it rests on, figure.go how one figure of the files is moved wherever it counts.
//
// Every figure is an integer: cents, millionths, hundredths.
package choice
