package report

import "brightset/catalog"

// atPlater says how far a piece has come that is at a plater's.
var atPlater = map[catalog.Stage]string{
	catalog.StageSeen:     "to be stripped and priced",
	catalog.StageStripped: "stripped",
	catalog.StagePriced:   "priced, and waiting for your word",
	catalog.StageApproved: "told to go ahead",
	catalog.StagePlated:   "plated, to be fetched",
}

// onBench says how far a piece has come that is with nobody else.
var onBench = map[catalog.Stage]string{
	catalog.StageSeen:     "looked over",
	catalog.StageStripped: "bare metal, on the bench",
	catalog.StageBack:     "back on the bench",
}

// stageText says how far a piece has come, and where it is. What is planned, what is at a
// plater's and what hangs are told by three words everywhere.
func stageText(st *catalog.State, p *catalog.Piece) string {
	switch {
	case p.Elsewhere:
		return "on another job"
	case p.Stage == catalog.StageHung:
		return "hangs as " + st.Slots[p.HungIn].Name
	case p.AtPlater():
		return "at " + st.Platers[p.Sent.Plater].Name + ", " + atPlater[p.Stage]
	case onBench[p.Stage] != "":
		return onBench[p.Stage]
	}
	return p.Stage.String()
}
