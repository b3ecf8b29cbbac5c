// Package sharedspare is the arithmetic of one spare held behind two slots: who has the
// first call on it, what the other pays if both fail, and how likely it is that one of
// them needs a rescue.
//
//	two lines with one fallback ──► Sharer, Sharer ──► PairUp ──► cost and risk of the two
//
// The lines, rows and groups that let the program choose it are in package program
// (shared_*.go).
package sharedspare
