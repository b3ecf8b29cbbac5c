package solver

import mathbits "math/bits"

// bits is a set of small numbers, such as columns of an instance.
type bits []uint64

func newBits(n int) bits { return make(bits, (n+63)/64) }

// fullBits has all of 0..n-1.
func fullBits(n int) bits {
	b := newBits(n)
	for i := range n {
		b.add(i)
	}
	return b
}

func (b bits) has(i int) bool { return b[i>>6]&(1<<(i&63)) != 0 }
func (b bits) add(i int)      { b[i>>6] |= 1 << (i & 63) }
func (b bits) drop(i int)     { b[i>>6] &^= 1 << (i & 63) }
func (b bits) clone() bits    { return append(bits(nil), b...) }

func (b bits) count() int {
	n := 0
	for _, w := range b {
		n += mathbits.OnesCount64(w)
	}
	return n
}

// next is the least member at or after i and before end, or end.
func (b bits) next(i, end int) int {
	for i < end {
		if w := b[i>>6] >> (i & 63); w != 0 {
			return min(i+mathbits.TrailingZeros64(w), end)
		}
		i = (i>>6 + 1) << 6
	}
	return end
}

// join adds the members of c.
func (b bits) join(c bits) {
	for i, w := range c {
		b[i] |= w
	}
}
