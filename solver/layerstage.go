package solver

// stage is a block and the choices there are in it.
type stage struct {
	block   int
	choices []choice
	ends    []int // switches that nothing after it needs or counts towards
}

// What preparing comes to.
const (
	beyondBounds = iota
	noneLeft     // there is no pick of interest
	prepared
)

func (l *layering) prepare(b *bound, y *duals) int {
	in := l.in
	if in.without.blocks || !l.findBits() {
		return beyondBounds
	}
	l.findDims()
	gap := l.upper() - b.value + 2*b.err
	for _, i := range l.order() {
		list, ok := l.choices(i, b, gap)
		if !ok {
			return beyondBounds
		}
		if len(list) == 0 {
			return noneLeft
		}
		l.stages = append(l.stages, stage{block: i, choices: list})
	}
	l.findEnds()
	l.reaches()
	if !l.findJudges(y) {
		return noneLeft
	}
	return prepared
}

// nearness is how much sooner a block comes for every small row that it shares with blocks
// before it: twice as much where it is the last to take part in the row, which is then done
// with.
const nearness = 50

// order is the blocks, those with most columns first, but those soon that share rows with
// blocks before them.
func (l *layering) order() (out []int) {
	in := l.in
	rows, waiting := l.rowsOfBlocks()
	begun, placed := make([]bool, len(in.rows)), make([]bool, len(in.blocks))
	size := make([]int, len(in.blocks))
	for g, i := range in.blockOf {
		size[i] += in.count(l.d, g, 1<<30)
	}
	for range in.blocks {
		best, most := -1, 0
		for i := range in.blocks {
			if placed[i] {
				continue
			}
			score := size[i]
			for _, r := range rows[i] {
				if begun[r] {
					score += nearness
				}
				if begun[r] && waiting[r] == 1 {
					score += nearness
				}
			}
			if best < 0 || score > most {
				best, most = i, score
			}
		}
		placed[best] = true
		for _, r := range rows[best] {
			begun[r] = true
			waiting[r]--
		}
		out = append(out, best)
	}
	return out
}

// rowsOfBlocks lists, per block, the small rows it may take up something of, and how many blocks
// do.
func (l *layering) rowsOfBlocks() (rows [][]int, blocks []int) {
	in := l.in
	rows, blocks = make([][]int, len(in.blocks)), make([]int, len(in.rows))
	seen := make([]int, len(in.rows)) // by which block last, and one more
	for i := range in.blocks {
		for _, g := range in.blocks[i].groups {
			for c := in.first(l.d, g); c < in.groups[g][1]; c = l.d.alive.next(c+1, in.groups[g][1]) {
				for _, t := range in.cols[c].terms {
					if k := &in.rows[t.Row]; !k.dense && !k.charges && t.Coef > 0 && seen[t.Row] != i+1 {
						seen[t.Row] = i + 1
						rows[i] = append(rows[i], t.Row)
						blocks[t.Row]++
					}
				}
			}
		}
	}
	return rows, blocks
}
