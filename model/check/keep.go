package check

import (
	"math/big"

	"brightset/catalog"
)

// ownWorth is what it is worth to the owner that a piece hangs: the slot's sum if it came off
// the object.
func ownWorth(slot *catalog.Slot, piece *catalog.Piece) (worth catalog.Cents) {
	if piece.Off {
		worth = slot.Keep
	}
	return worth
}

// kept is what one of the object's own pieces is worth to the owner in a line: by the chance
// that the chosen one hangs, or, where it fails, the fallback. One that yields its spare to
// another hangs it only where the other does not fail.
func kept(l auditedLine) catalog.Cents {
	sum := l.k.Keeps
	if l.f == nil {
		return sum
	}
	sum += catalog.Of(l.k.Fails, l.f.Keeps)
	if l.with == nil || !l.given.Sharing.Yields {
		return sum
	}
	million := big.NewInt(1_000_000)
	lost := new(big.Int).Mul(big.NewInt(int64(l.k.Fails)), big.NewInt(int64(l.with.k.Fails)))
	lost.Add(lost, big.NewInt(500_000)).Div(lost, million)
	lost.Mul(lost, big.NewInt(int64(l.f.Keeps))).Add(lost, big.NewInt(500_000)).Div(lost, million)
	return sum - catalog.Cents(lost.Int64())
}
