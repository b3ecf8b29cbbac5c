package catalog

import "fmt"

// checkReach refuses locks that can't be kept whatever is planned: one that
// nothing can ever match, and pieces locked in more slots than there are of
// them. What depends on grades and works is left to the plan, which explains.
func (l *loader) checkReach(locks []*table) {
	taken := make([]int, len(l.state.Pieces))
	for i, t := range locks {
		f := l.state.Locks[i].Filter
		if f.Piece == None || f.Slot == None {
			continue
		}
		p := &l.state.Pieces[f.Piece]
		if why, hint := l.outOfReach(p, f); why != "" {
			t.wrongHere(t.what+" matches nothing: "+why, hint)
			continue
		}
		need := l.state.Slots[f.Slot].Quantity
		if taken[f.Piece] += need; taken[f.Piece] > p.Quantity && need <= p.Quantity {
			t.wrong("piece", fmt.Sprintf("piece %q is locked for %d in all, and there are only %d", p.ID, taken[f.Piece],
				p.Quantity), "name another piece, or leave one of its locks out")
		}
	}
}

// outOfReach says why nothing that can be done to a piece matches a filter, and
// what to do about it; "" where something may.
func (l *loader) outOfReach(p *Piece, f Filter) (why, hint string) {
	switch f.Work {
	case WorkAsIs:
		if !p.Grade.Set && len(p.Findings) == 0 {
			return fmt.Sprintf("piece %q has neither a grade nor findings, so nobody knows how it would look as it is", p.ID),
				fmt.Sprintf("write grade = 80 or a word such as \"nice\" below [piece.%s]", keyText(p.ID))
		}
		return "", ""
	case WorkClean:
		for _, found := range p.Findings {
			if found.Defect == None || l.state.Tables.Defects[found.Defect].By[found.Severity].Polishes.V {
				return "", ""
			}
		}
		return fmt.Sprintf("piece %q has no finding that polishing takes away", p.ID), "leave work out, or name another"
	}
	if f.Plater == None {
		return "", ""
	}
	for _, q := range p.Quotes {
		if q.Plater == f.Plater || q.Plater == None {
			return "", ""
		}
	}
	plater := &l.state.Platers[f.Plater]
	if p.Metal == None {
		return fmt.Sprintf("plater %q has given no quote for piece %q, whose metal is unknown", plater.ID, p.ID),
			"write the quote or the metal, or name another plater"
	}
	for _, level := range plater.Levels {
		if (f.Level == "" || level.Name == f.Level) && level.prices(p.Metal) && level.Grade[p.Metal].Set {
			return "", ""
		}
	}
	return fmt.Sprintf("plater %q has no quote for piece %q and no rate for %s", plater.ID, p.ID,
		l.state.Tables.Metals[p.Metal].Name), "write a quote or the rate, or name another plater"
}
