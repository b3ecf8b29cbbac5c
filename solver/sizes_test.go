package solver

import (
	"math/rand/v2"
)

// sizes draws numbers of the sizes that jobs have, among them many that are nearly
// equal and many at an edge of some type.
type sizes struct {
	*rand.Rand
	most int64   // so large can a number be that all sums of a problem stay within Limit
	seen []int64 // drawn so far, to be met again or missed by one
}

// edges are where a number stops fitting a narrower type or starts to mean something
// else in it: bytes, characters, their surrogates, 16, 32 and 53 bits, floats of 24.
var edges = []int64{0, 1, 127, 255, 32767, 55295, 55296, 56500, 57343, 65533, 65535, 1<<24 - 1, 1 << 24, 1114111,
	1114112, 1<<31 - 1, 1 << 31, 1<<32 - 1, 1 << 32, 1<<40 + 1, 1<<52 - 1, Limit - 1}

// up gives a number from 0 to about most: a new one, or one near those before it.
func (s *sizes) up(most int64) int64 {
	most = min(most, s.most)
	v := int64(0)
	switch k := s.IntN(10); {
	case k < 4 && len(s.seen) > 0:
		v = s.seen[s.IntN(len(s.seen))] + s.Int64N(3) - 1
	case k < 6:
		v = edges[s.IntN(len(edges))] + s.Int64N(3) - 1
	case k < 7:
		v = s.Int64N(4)
	default:
		v = s.Int64N(most + 1)
	}
	if v < 0 || v > most {
		v = s.Int64N(most + 1)
	}
	s.seen = append(s.seen, v)
	return v
}

// any gives a number of either sign.
func (s *sizes) any(most int64) int64 {
	if s.IntN(3) == 0 {
		return -s.up(most)
	}
	return s.up(most)
}

// realKinds are what rows of a job are about.
const (
	completion = iota // what a line takes up of the chance of completion, 0 to 13,815,511
	mean              // weight x grade, in hundredths each, of either sign
	piece             // so many of a piece
	linked            // as many of one thing as of another: 1 and -1
	budget            // money, with charges
	edge              // anything there is room for
	realKinds
)

// realRow is what a row is about and, unless it may be any, which groups take part.
type realRow struct {
	kind   int
	groups []int
}

func (s *sizes) coef(kind int, money int64) int64 {
	switch kind {
	case completion:
		return s.up(13_815_511)
	case mean:
		return s.any(100 * 10_000)
	case piece:
		return 1 + s.Int64N(2)
	case linked:
		return 2*s.Int64N(2) - 1
	case budget:
		return s.up(money)
	}
	return s.any(Limit)
}
