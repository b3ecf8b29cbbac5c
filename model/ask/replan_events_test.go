package ask

import (
	"fmt"
	"math/rand/v2"
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
)

// sums are what Check calls a plan that is wrongly added up, and not against a rule.
var sums = []string{"expected", "outlay", "line-expected", "charge", "figure-mean", "figure-completion"}

// event is something that may happen to a job; false where it can't. Money that goes
// out is taken off the budget.
type event struct {
	name string
	do   func(r *rand.Rand, st *catalog.State, plan *plan.Plan) bool
}

var allEvents = []event{
	{"a piece breaks", func(r *rand.Rand, st *catalog.State, plan *plan.Plan) bool {
		st.Pieces[anyLine(r, plan).Choice.Piece].Stage = catalog.StageBroken
		return true
	}},
	{"a piece in reserve is sold", func(r *rand.Rand, st *catalog.State, plan *plan.Plan) bool {
		f := anyLine(r, plan).Fallback
		if f != nil {
			st.Pieces[f.Piece].Stage = catalog.StageSold
		}
		return f != nil
	}},
	{"a lead comes", func(r *rand.Rand, st *catalog.State, _ *plan.Plan) bool { return leadTurns(r, st, true) }},
	{"a lead fails", func(r *rand.Rand, st *catalog.State, _ *plan.Plan) bool { return leadTurns(r, st, false) }},
	{"a lot is sent", func(r *rand.Rand, st *catalog.State, plan *plan.Plan) bool {
		return lotGoes(r, st, plan, catalog.StageApproved)
	}},
	{"a lot is sent to be stripped", func(r *rand.Rand, st *catalog.State, plan *plan.Plan) bool {
		return lotGoes(r, st, plan, catalog.StageSeen)
	}},
	{"the price after strip is another", func(r *rand.Rand, st *catalog.State, plan *plan.Plan) bool {
		p := withPlater(r, st, plan, catalog.StageSeen)
		if p != nil {
			p.Stage, p.Sent.Refused = catalog.StagePriced, jobs.Given(catalog.Micro(0))
			p.Sent.Cost = p.Sent.Cost * catalog.Cents(60+r.IntN(150)) / 100
		}
		return p != nil
	}},
	{"he sends it back", func(r *rand.Rand, st *catalog.State, plan *plan.Plan) bool {
		p := withPlater(r, st, plan, catalog.StageSeen)
		if p == nil {
			return false
		}
		st.Job.Budget.V -= st.Platers[p.Sent.Plater].StripFee
		piece := slices.IndexFunc(st.Pieces, func(o catalog.Piece) bool { return o.Key() == p.Key() })
		st.Bans = append(st.Bans, catalog.Ban{ID: "refused", Filter: catalog.Filter{Slot: catalog.None, Piece: piece,
			Plater: p.Sent.Plater}})
		p.Stage, p.Sent = catalog.StageStripped, catalog.Sent{}
		return true
	}},
	{"a piece comes back", func(r *rand.Rand, st *catalog.State, plan *plan.Plan) bool {
		p := withPlater(r, st, plan, catalog.StageApproved)
		if p != nil {
			grade := p.Sent.Grade.V + catalog.Centi(r.IntN(3)-1)*catalog.Centi(r.IntN(12_00))
			p.Stage, p.Findings = catalog.StageBack, nil
			p.Grade, p.Fresh, p.Tone, p.Days = jobs.Given(min(100_00, max(0, grade))), jobs.Given(true),
				jobs.Given(p.Sent.Tone.V), jobs.Given(0)
		}
		return p != nil
	}},
	{"a piece is hung", func(r *rand.Rand, st *catalog.State, plan *plan.Plan) bool {
		l := anyLine(r, plan)
		p := &st.Pieces[l.Choice.Piece]
		if (p.Stage != catalog.StageBack && l.Choice.Work != catalog.WorkAsIs) || p.Gone() ||
			st.HungIn(l.Slot) != catalog.None {
			return false
		}
		p.Stage, p.HungIn = catalog.StageHung, l.Slot
		if p.Chance, p.Days = catalog.One, jobs.Given(0); !p.Grade.Set {
			p.Grade = jobs.Given(l.Choice.Grade)
		}
		return true
	}},
	{"a quote changes", func(r *rand.Rand, st *catalog.State, _ *plan.Plan) bool {
		changed := false
		for i := range st.Pieces {
			for q := range st.Pieces[i].Quotes {
				if jobs.Chance(r, 40) {
					cost := &st.Pieces[i].Quotes[q].Cost
					*cost, changed = *cost*catalog.Cents(60+r.IntN(90))/100, true
				}
			}
		}
		return changed
	}},
	{"another piece turns up", func(r *rand.Rand, st *catalog.State, plan *plan.Plan) bool {
		s := &st.Slots[anyLine(r, plan).Slot]
		st.Pieces = append(st.Pieces, catalog.Piece{ID: fmt.Sprintf("found-%d", len(st.Pieces)),
			Fits: []int{slices.IndexFunc(st.Slots, func(o catalog.Slot) bool { return o.ID == s.ID })},
			Kind: catalog.Original, Vendor: catalog.None, Bundle: catalog.None, Metal: jobs.Brass,
			Quantity: s.Quantity, Chance: catalog.One,
			Grade: jobs.Given(jobs.Between[catalog.Centi](r, 60_00, 95_00))})
		return true
	}},
	{"days go by", func(r *rand.Rand, st *catalog.State, _ *plan.Plan) bool {
		st.Job.Elapsed += 1 + r.IntN(12)
		for i := range st.Pieces {
			st.Pieces[i].Sent.Since = st.Job.Elapsed
		}
		return true
	}},
}

// happens lets a few things happen one after the other, and says which.
func happens(r *rand.Rand, st *catalog.State, plan *plan.Plan) []string {
	var out []string
	for range 1 + r.IntN(6) {
		if e := allEvents[r.IntN(len(allEvents))]; e.do(r, st, plan) {
			out = append(out, e.name)
		}
	}
	return out
}

func anyLine(r *rand.Rand, plan *plan.Plan) *plan.Line { return &plan.Lines[r.IntN(len(plan.Lines))] }

func leadTurns(r *rand.Rand, st *catalog.State, comes bool) bool {
	for _, i := range r.Perm(len(st.Pieces)) {
		if p := &st.Pieces[i]; p.Chance < catalog.One && !p.Gone() && p.Stage == catalog.StageSeen && !p.Sent.Was {
			if p.Chance, p.Days = catalog.One, jobs.Given(0); !comes {
				p.Stage = catalog.StageLost
			}
			return true
		}
	}
	return false
}

// lotGoes sends all that the plan has for one plater. Freight and what is missing to his
// minimum go out with it, and the work if he need not name a price first.
func lotGoes(r *rand.Rand, st *catalog.State, plan *plan.Plan, stage catalog.Stage) bool {
	q, work, went := r.IntN(len(st.Platers)), catalog.Cents(0), false
	for _, l := range plan.Lines {
		k := l.Choice
		p := &st.Pieces[k.Piece]
		if k.Plater != q || p.Sent.Was || p.Stage != catalog.StageSeen {
			continue
		}
		p.Sent = catalog.Sent{Was: true, Quote: choice.Terms(st, k), Count: st.Slots[k.Slot].Quantity}
		p.Stage, p.Chance, went = stage, catalog.One, true
		work += p.Sent.Cost * catalog.Cents(p.Sent.Count)
	}
	if went {
		if st.Job.Budget.V -= st.Platers[q].Freight + max(0,
			st.Platers[q].Minimum-work); stage == catalog.StageApproved {
			st.Job.Budget.V -= work
		}
	}
	return went
}

// withPlater is one of the plan's pieces that a plater has, nil where he has none; a lot
// goes to him if need be.
func withPlater(r *rand.Rand, st *catalog.State, plan *plan.Plan, stage catalog.Stage) *catalog.Piece {
	for range 2 {
		for _, i := range r.Perm(len(plan.Lines)) {
			if p := &st.Pieces[plan.Lines[i].Choice.Piece]; p.AtPlater() && p.Stage == stage {
				return p
			}
		}
		lotGoes(r, st, plan, stage)
	}
	return nil
}
