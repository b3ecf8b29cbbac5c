package oracle

import (
	"math/big"

	"brightset/catalog"
)

// CompletionLimit is floor(-1e6 ln completion) + number of slots.
func CompletionLimit(asked catalog.Micro, slots int) int64 {
	return down(millionLn(big.NewInt(int64(asked)), big.NewInt(million))) + int64(slots)
}

// Completion is the chance that no slot needs a rescue: the product over lines.
func Completion(lines []*Line) float64 {
	chance := 1.0
	for _, l := range lines {
		chance *= float64(million*million-rescued(l.K, l.F)) / (million * million)
	}
	return chance
}
