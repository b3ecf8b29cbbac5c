package report

import (
	"brightset/model/paper"
	"brightset/model/plan"
)

// jointActDoc is one thing to do for several jobs: the sums and counts of all, what it is
// for each of them, and with whom.
type jointActDoc struct {
	actDoc
	Parts []jointPartDoc `json:"parts"`
}

type jointPartDoc struct {
	Job string `json:"job"`
	actDoc
}

// jointConcDoc is what to look at in one job.
type jointConcDoc struct {
	Job string `json:"job"`
	concernDoc
}

// screen adds what the first screen says besides the plan.
func (doc *jointDoc) screen(out *plan.Joint) {
	for j := range out.Jobs {
		doc.Slots += len(out.Jobs[j].Plan.Lines)
	}
	for _, a := range paper.CommonTodo(out) {
		first := &a.Parts[0]
		one := jointActDoc{actDoc: actOf(out.Jobs[first.Job].State, &first.Act)}
		one.Act, one.Count, one.Cents, one.Guess = actWords[a.Kind], a.Count, a.Cents, a.Guess
		one.Pieces, one.Names, one.Slots = []string{}, []string{}, []string{} // part by part
		for i := range a.Parts {
			st := out.Jobs[a.Parts[i].Job].State
			one.Parts = append(one.Parts, jointPartDoc{st.Job.File, actOf(st, &a.Parts[i].Act)})
		}
		doc.DoNow = append(doc.DoNow, one)
	}
	for _, c := range jointConcerns(out) {
		job := &out.Jobs[c.job]
		doc.LookAt = append(doc.LookAt, jointConcDoc{job.State.Job.File, concernOf(job.Plan, &c.Concern)})
	}
}
