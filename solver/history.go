package solver

// lesson is what one trial of a cut has raised a child's bound by, and how much of the
// LP's solution had to go elsewhere for it.
type lesson struct {
	key  candidateKey
	side int
	move float64
	rise float64
}

// history is what cuts of each kind have raised the bounds of their children by, per unit
// of the LP's solution that had to go elsewhere. What it expects hangs much on the node:
// it says which cuts to try first, and is believed only in short searches.
type history struct {
	of  map[candidateKey]*[2]gain
	all [2]gain
}

type gain struct {
	sum float64
	n   int
}

// leastMove is the least that is reckoned with: less says nothing.
const leastMove = 0.02

func (h *history) add(l *lesson) {
	if h.of == nil {
		h.of = map[candidateKey]*[2]gain{}
	}
	if h.of[l.key] == nil {
		h.of[l.key] = &[2]gain{}
	}
	for _, g := range []*gain{&h.of[l.key][l.side], &h.all[l.side]} {
		g.sum += l.rise / max(leastMove, l.move)
		g.n++
	}
}

// expected is what a cut is likely to raise the bounds of its children by: by what its kind
// did, else by what all did, else by how much has to go elsewhere. tried: how often its kind
// was tried, on the side where that was rarer.
func (h *history) expected(k *candidate) (rise [2]float64, tried int) {
	if own := h.of[k.key]; own != nil {
		tried = min(own[0].n, own[1].n)
	}
	for side := range rise {
		g := h.all[side]
		if own := h.of[k.key]; own != nil && own[side].n > 0 {
			g = own[side]
		}
		rise[side] = k.move[side]
		if g.n > 0 {
			rise[side] = g.sum / float64(g.n) * max(leastMove, k.move[side])
		}
	}
	return rise, tried
}

// score is better the more both sides gain.
func score(rise [2]float64) float64 { return max(rise[0], 0.01) * max(rise[1], 0.01) }
