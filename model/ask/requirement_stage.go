package ask

import (
	"fmt"

	"brightset/catalog"
	"brightset/model/plan"
)

// ofStages is how far pieces have come, as long as that can be gone back on: what hangs
// can be taken down, and what a plater has not done yet can be taken back.
func ofStages(st *catalog.State) []Requirement {
	var all []Requirement
	for i := range st.Pieces {
		p, name := &st.Pieces[i], plan.PieceName(st, i)
		switch {
		case p.Gone():
		case p.Stage == catalog.StageHung:
			words := fmt.Sprintf("that %s stays where it hangs, in %s", plan.PieceCalled(st, i), st.Slots[p.HungIn].Name)
			all = append(all, Requirement{"hung", name, i, words, func(st *catalog.State) { takeDown(&st.Pieces[i]) }})
		case p.AtPlater() && p.Stage < catalog.StagePlated:
			words := fmt.Sprintf("that %s goes on with %s", st.Platers[p.Sent.Plater].Name, plan.PieceCalled(st, i))
			all = append(all, Requirement{"sent", name, i, words, func(st *catalog.State) { takeBack(&st.Pieces[i]) }})
		}
	}
	return all
}

// takeDown puts a piece that hangs on the bench again.
func takeDown(p *catalog.Piece) {
	p.Stage, p.HungIn = catalog.StageSeen, catalog.None
	if p.Sent.Was {
		p.Stage = catalog.StageBack
	}
}

// takeBack fetches a piece from a plater: as it was, or stripped.
func takeBack(p *catalog.Piece) {
	if p.Sent = (catalog.Sent{}); p.Stage != catalog.StageSeen {
		p.Stage = catalog.StageStripped
	}
}

// withoutStage says what it is to go back on how far a piece has come.
func withoutStage(st *catalog.State, r *Requirement) string {
	p := &st.Pieces[r.index]
	if r.Kind == "hung" {
		return fmt.Sprintf("if %s is taken down from %s it fits", plan.PieceCalled(st, r.index), st.Slots[p.HungIn].Name)
	}
	q := &st.Platers[p.Sent.Plater]
	text := fmt.Sprintf("if %s is taken back from %s it fits", plan.PieceCalled(st, r.index), q.Name)
	if q.StripFee > 0 && p.Stage != catalog.StageSeen {
		text += fmt.Sprintf(" (%s for stripping comes on top)", catalog.FormatMoney(q.StripFee))
	}
	return text
}
