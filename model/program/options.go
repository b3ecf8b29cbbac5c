package program

import (
	"brightset/model/plan"
)

// Options say how a program is made. The zero value makes one whose limits,
// freights and tags may be changed from solve to solve.
type Options struct {
	// AllLines leaves every line in, before any dominance: for --mps, and for
	// solves that ban or fix columns freely.
	AllLines bool
	// Best asks for the highest sum of weight x grade instead of the least total.
	Best bool
	// FixedLimits says that the limits of rows stay as they are; lines that only
	// another limit could call for are then left out.
	FixedLimits bool
	// Keep names slots in which every choice k keeps its best lines, so that a
	// solve may fix or ban one choice of the slot after the other.
	Keep []int
	// Finds are pieces that nobody has yet: they are never held in reserve, and
	// lines with them make no other line needless, so that a solve may ban them.
	Finds []int
	// Shared are pieces that other jobs may lay claim to as well: they have a row even
	// if the slots of this job alone can't use more than there are.
	Shared []int
	// SharedSpares lets two slots hold one spare together, where that is cheaper. It goes
	// neither with Best nor with Keep.
	SharedSpares bool
	// pairsAtMost, with SharedSpares, makes about so many columns for what is shared at
	// most, by taking classes together: the program is then a relaxation, see
	// shared_cells.go. 0: as many as it takes.
	pairsAtMost int
	// GiveUp, if there is one, is asked while the program is made; if it says so, the
	// program is left unfinished.
	GiveUp func() bool
	// base, if there is one, is the program of the same state, or of one in which the
	// choices for some slots alone are others, made with the same options but for
	// Adjust and Beside; differs says for which slots. What the rest needs is taken
	// from it.
	base    *Program
	differs func(slot int) bool
	// Adjust, if there is one, may change the figures of choices before anything is
	// made of them, to ask what another price, breakage or grade would lead to. Such
	// plans are not the state's own, and Check would say so.
	Adjust func(*plan.Choice)
	// Beside puts a copy beside each choice for every one of these that changes its
	// figures, to ask what one of them at best could lead to: no plan has more than one of
	// them in it, but for bags, and each may be banned. Such plans are not the state's own
	// either.
	Beside []Variant
}
