package ask

import (
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/internal/jobs"
	"brightset/model/internal/solved"
	"brightset/model/plan"
	"brightset/model/risk"
	"brightset/solver"
)

// TestTerms: a piece that has just been sent on the terms of a choice is in everything
// what the choice was, but that the works of others and the way to the bench are behind
// it, and are neither paid for nor waited for again; works after plating are to come.
func TestTerms(t *testing.T) {
	looked, others, fitted, after := 0, 0, 0, 0
	for seed := range int64(60) {
		st := jobs.Random(seed, 4, jobs.Options{On: []string{"fit", "maker", "quantity", "after"}})
		for s, choices := range choice.Choices(st) {
			for i := range choices {
				k := &choices[i]
				if !k.Plated() {
					continue
				}
				looked++
				sent := st.Clone()
				p := &sent.Pieces[k.Piece]
				p.Sent = catalog.Sent{Was: true, Quote: choice.Terms(st, k), Count: st.Slots[s].Quantity,
					After: choice.WorksAfter(st, k)}
				now := choice.FindSame(choice.ChoicesFor(sent, s), &plan.Choice{Slot: s, Piece: k.Piece, Work: k.Work,
					Plater: k.Plater, Level: k.Level, Quote: catalog.None})
				if !now.Sent || now.Plate != k.Plate || now.Breakage > k.Breakage ||
					len(choice.WorksBefore(st, k)) == 0 && now.Breakage != k.Breakage ||
					now.Refused != k.Refused || now.Grade != k.Grade ||
					now.Tone != k.Tone || now.Fresh != k.Fresh || now.Get != k.Get {
					t.Fatalf("seed %d: %s\nsent: %s", seed, jobs.ChoiceText(st, k),
						jobs.ChoiceText(sent, now))
				}
				fit, busy, work, last := catalog.Cents(0), 0, catalog.Cents(0), catalog.Cents(0)
				for _, part := range k.Parts {
					switch {
					case part.Work == catalog.None && part.Doer == plan.ByShop:
						fit += part.Cost
					case part.Doer != plan.ByPlater && st.Tables.Works[part.Work].AfterPlating():
						last += part.Cost
					case part.Doer == plan.ByMaker:
						busy = max(busy, st.Makers[part.Maker].Days)
						work += part.Cost
					case part.Doer == plan.ByShop:
						work += part.Cost
					}
				}
				own, makers := choice.WorkBefore(st, k)
				if now.Other != fit+last || now.Before != 0 || k.Other != fit+last || k.Before != work ||
					work != (own+makers)*catalog.Cents(st.Slots[s].Quantity) {
					t.Errorf("seed %d: before it is sent %d, then %d: fitting %d and work %d; now %d", seed, k.Before,
						k.Other, fit, work, now.Other)
				}
				if want := max(1, k.Days-busy-choice.Arrival(st, &st.Pieces[k.Piece])); now.Days != want {
					t.Errorf("seed %d: %d days, want %d", seed, now.Days, want)
				}
				if last > 0 {
					after++
				}
				if work > 0 {
					others++
				}
				if fit > 0 {
					fitted++
				}
			}
		}
	}
	if looked < 800 || others < 80 || fitted < 40 || after < 40 {
		t.Errorf("%d looked at, %d with works of others, %d after plating, %d to be fitted", looked, others, after, fitted)
	}
}

// TestHungByHandwork: a piece that was made to fit and hangs costs nothing more, can't
// break, needs nothing in reserve and no day.
func TestHungByHandwork(t *testing.T) {
	st := jobs.Tiny()
	st.Pieces[jobs.Other].Fits = []int{jobs.Right}
	st.Pieces[jobs.Other].Fit = []catalog.Fit{{Slot: jobs.Left, Hours: 1_500_000, Breakage: 50_000, Cap: 65_00}}
	st.Pieces[jobs.Other].Stage, st.Pieces[jobs.Other].HungIn = catalog.StageHung, jobs.Left
	st.Job.Elapsed, st.Job.WithinDays = 100, jobs.Given(100)
	st.Slots[jobs.Left].Target.Floor, st.Pieces[jobs.Hazy].Fits = jobs.Given(catalog.Centi(66_00)), []int{jobs.Right}
	plan := solved.Cheapest(t, st)
	l := plan.Lines[jobs.Left]
	if l.Choice.Piece != jobs.Other || l.Expected != 0 || l.Choice.Fails != 0 || l.Fallback != nil ||
		l.Choice.Grade != 70_00 || choice.OnDay(st, l.Choice) != 0 {
		t.Errorf("%+v, expected %d", l.Choice, l.Expected)
	}
}

// TestGradedByEye: once somebody has looked, the grade rests on no points of the tables,
// and the tone only if nobody has said it.
func TestGradedByEye(t *testing.T) {
	st := jobs.Tiny()
	p := &st.Pieces[jobs.Hazy]
	p.Findings = []catalog.Finding{{Defect: jobs.Nickel, Severity: catalog.Light, Extent: 500_000, Count: 1,
		Where: catalog.Face}}
	rests := func() string {
		words := []string{}
		for _, r := range jobs.Pick(choice.Choices(st)[jobs.Left], jobs.Hazy, catalog.WorkAsIs, catalog.None,
			"").Assumptions {
			words = append(words, string(r))
		}
		return strings.Join(words, ", ")
	}
	for _, want := range []string{"highest grade with light nickel showing, tone of nickel showing",
		"tone of nickel showing", ""} {
		if got := rests(); got != want {
			t.Errorf("rests on %q, want %q", got, want)
		}
		if p.Grade.Set {
			p.Tone = jobs.Given(catalog.Centi(0))
		}
		p.Grade = jobs.Given(catalog.Centi(74_00))
	}
}

// TestAskingAgainInTheMiddle: whatever is asked of a job under way is answered on the
// same terms: nothing fails its check, no find is looked for where a piece hangs, and
// the first of the other plans is no cheaper.
func TestAskingAgainInTheMiddle(t *testing.T) {
	asked, hung := 0, 0
	ctx, set := context.Background(), solver.Settings{TimeLimit: time.Minute}
	for seed := range int64(90) {
		st := jobs.StagedState(seed, 3)
		plan := solved.Cheapest(t, st)
		if !plan.Has {
			continue
		}
		asked++
		front, err := Frontier(ctx, st, 5_00, set)
		if err != nil || len(front.Points) == 0 || front.Points[0].Plan.Weighed() > plan.Weighed() {
			t.Fatalf("seed %d: frontier: %v", seed, err)
		}
		others, err := Others(ctx, plan, 1, 1, set)
		if err != nil {
			t.Fatalf("seed %d: others: %v", seed, err)
		}
		for _, o := range others {
			if o.Plan != nil && o.Plan.Has && o.Kind == OtherNear && o.Plan.Weighed() < plan.Weighed() {
				t.Errorf("seed %d: %s costs %d, the advised plan %d", seed, o.Kind, o.Plan.Weighed(), plan.Weighed())
			}
		}
		if _, err := Bindings(ctx, plan, set); err != nil {
			t.Fatalf("seed %d: bindings: %v", seed, err)
		}
		why, err := AskWhy(ctx, st, 0, set)
		if err != nil {
			t.Fatalf("seed %d: why: %v", seed, err)
		}
		for _, way := range why.Alternatives {
			if way.Plan.Has && way.More < 0 {
				t.Errorf("seed %d: a way costs %d less than the advised plan", seed, -way.More)
			}
		}
		hunted, err := Hunt(ctx, st, nil, set)
		if err != nil {
			t.Fatalf("seed %d: hunt: %v", seed, err)
		}
		for s := range st.Slots {
			if st.HungIn(s) == catalog.None {
				continue
			}
			hung++
			for _, f := range hunted.Finds {
				if f.Slot == s {
					t.Errorf("seed %d: a find worth %d where a piece hangs", seed, f.Worth)
				}
			}
		}
		if r := risk.RiskOf(context.Background(), plan); 1-r.InTime > r.Rescues+1e-9 && st.Job.WithinDays.Set &&
			choice.LastDay(st, plan) <= st.Job.WithinDays.V {
			t.Errorf("seed %d: in time with %g, and all is settled on day %d of %d", seed, r.InTime,
				choice.LastDay(st, plan), st.Job.WithinDays.V)
		}
	}
	if asked < 25 || hung < 5 {
		t.Errorf("%d jobs asked about, %d slots where a piece hangs", asked, hung)
	}
}

// TestOutsOfStages: why nothing can be done with a piece any more is told in its words.
func TestOutsOfStages(t *testing.T) {
	st := jobs.Tiny()
	st.Pieces[jobs.Bare].Elsewhere = true
	st.Pieces[jobs.Hazy].Stage = catalog.StageStripped
	st.Pieces[jobs.Twisted].Stage = catalog.StageBroken
	st.Pieces[jobs.Other].Stage, st.Pieces[jobs.Other].HungIn = catalog.StageHung, jobs.Right
	said := map[string]bool{}
	for _, o := range slices.Concat(choice.Exclusions(st)...) {
		way := plan.WayOf(st, o.Work, o.Plater, o.Level)
		said[strings.TrimSpace(st.Slots[o.Slot].ID+" "+plan.PieceName(st, o.Piece)+" "+way)+": "+o.Why] = true
	}
	for _, want := range []string{
		"rim-left bare: it is in use on another job", "rim-left hazy as it is: it is stripped",
		"rim-left twisted: it is broken",
		"rim-left other: it hangs in rim-right", "rim-right sold: other hangs there",
		"rim-right bare: it is in use on another job",
	} {
		if !said[want] {
			t.Errorf("not said: %s", want)
		}
	}
}
