package solver

import (
	"math"
)

// deltas is, per column alive, how much the bound rises if that column is
// picked: its reduced cost less the group's least, within the block's windows.
func (in *instance) deltas(d *domain, b *bound) []float64 {
	if b.kept != nil {
		return b.kept.deltas(d, b)
	}
	delta := make([]float64, len(in.cols))
	for i := range in.blocks {
		blk := &in.blocks[i]
		if blk.single() {
			g := blk.groups[0]
			for c := in.first(d, g); c < in.groups[g][1]; c = d.alive.next(c+1, in.groups[g][1]) {
				delta[c] = b.rc[c] - b.least[g]
			}
			continue
		}
		rest := blk.rank(d, b.rc).others()
		for k, cols := range blk.classes {
			for _, c := range cols {
				delta[c] = math.Max(0, rest[k]+b.rc[c]-b.block[i])
			}
		}
	}
	return delta
}

// fix removes every column, and settles every switch, that the bound proves to
// be in no solution with a total below upper. It says whether it did anything.
func (in *instance) fix(d *domain, b *bound, upper int64) bool {
	if in.without.fixing {
		return false
	}
	gap := float64(upper-1) - b.value + 2*b.err
	changed := false
	delta := in.deltas(d, b)
	for _, span := range in.groups {
		for c := d.alive.next(span[0], span[1]); c < span[1]; c = d.alive.next(c+1, span[1]) {
			if delta[c] > gap {
				d.alive.drop(c)
				changed = true
			}
		}
	}
	for h := range in.switches {
		if d.y[h] != open {
			continue
		}
		if b.s[h] > 0 && b.s[h] > gap {
			d.y[h], changed = off, true
		} else if b.s[h] < 0 && -b.s[h] > gap {
			d.y[h], changed = on, true
		}
	}
	return changed
}
