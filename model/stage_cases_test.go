package model

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"brightset/catalog"
	"brightset/solver"
)

// TestTerms: a piece that has just been sent on the terms of a choice is in everything
// what the choice was, but that the works of others and the way to the bench are behind
// it, and are neither paid for nor waited for again.
func TestTerms(t *testing.T) {
	looked, others, fitted := 0, 0, 0
	for seed := range int64(60) {
		st := randomState(seed, 4, randomOptions{On: []string{"fit", "maker", "quantity"}})
		for s, choices := range Choices(st) {
			for i := range choices {
				k := &choices[i]
				if !k.Plated() {
					continue
				}
				looked++
				sent := st.Clone()
				p := &sent.Pieces[k.Piece]
				p.Sent = catalog.Sent{Was: true, Quote: Terms(st, k), Count: st.Slots[s].Quantity}
				now := findSame(choicesFor(sent, s), &Choice{Slot: s, Piece: k.Piece, Work: k.Work, Plater: k.Plater, Level: k.Level, Quote: catalog.None})
				if !now.Sent || now.Plate != k.Plate || now.Breakage > k.Breakage || OthersWork(st, k) == 0 && now.Breakage != k.Breakage || now.Refused != k.Refused || now.Grade != k.Grade || now.Tone != k.Tone || now.Fresh != k.Fresh || now.Get != k.Get {
					t.Fatalf("seed %d: %s\nsent: %s", seed, randomChoiceText(st, k), randomChoiceText(sent, now))
				}
				fit, busy, work := catalog.Cents(0), 0, catalog.Cents(0)
				for _, part := range k.Parts {
					switch {
					case part.Work == catalog.None && part.Doer == ByShop:
						fit += part.Cost
					case part.Doer == ByMaker:
						busy = max(busy, st.Makers[part.Maker].Days)
						work += part.Cost
					case part.Doer == ByShop:
						work += part.Cost
					}
				}
				if now.Other != fit || now.Before != 0 || k.Other != fit || k.Before != work || work != OthersWork(st, k)*catalog.Cents(st.Slots[s].Quantity) {
					t.Errorf("seed %d: before it is sent %d, then %d: fitting %d and work %d; now %d", seed, k.Before, k.Other, fit, work, now.Other)
				}
				if want := max(1, k.Days-busy-arrival(st, &st.Pieces[k.Piece])); now.Days != want {
					t.Errorf("seed %d: %d days, want %d", seed, now.Days, want)
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
	if looked < 800 || others < 80 || fitted < 40 {
		t.Errorf("%d looked at, %d with works of others, %d to be fitted", looked, others, fitted)
	}
}

// TestHungByHandwork: a piece that was made to fit and hangs costs nothing more, can't
// break, needs nothing in reserve and no day.
func TestHungByHandwork(t *testing.T) {
	st := tinyState()
	st.Pieces[other].Fits = []int{right}
	st.Pieces[other].Fit = []catalog.Fit{{Slot: left, Hours: 1_500_000, Breakage: 50_000, Cap: 65_00}}
	st.Pieces[other].Stage, st.Pieces[other].HungIn = catalog.StageHung, left
	st.Job.Elapsed, st.Job.WithinDays = 100, given(100)
	st.Slots[left].Target.Floor, st.Pieces[hazy].Fits = given(catalog.Centi(66_00)), []int{right}
	plan := cheapest(t, st)
	l := plan.Lines[left]
	if l.Choice.Piece != other || l.Expected != 0 || l.Choice.Fails != 0 || l.Fallback != nil || l.Choice.Grade != 70_00 || OnDay(st, l.Choice) != 0 {
		t.Errorf("%+v, expected %d", l.Choice, l.Expected)
	}
}

// TestGradedByEye: once somebody has looked, the grade rests on no points of the tables,
// and the tone only if nobody has said it.
func TestGradedByEye(t *testing.T) {
	st := tinyState()
	p := &st.Pieces[hazy]
	p.Findings = []catalog.Finding{{Defect: nickel, Severity: catalog.Light, Extent: 500_000, Count: 1, Where: catalog.Face}}
	rests := func() string {
		words := []string{}
		for _, r := range pick(Choices(st)[left], hazy, catalog.WorkAsIs, catalog.None, "").Rests {
			words = append(words, string(r))
		}
		return strings.Join(words, ", ")
	}
	for _, want := range []string{"highest grade with light nickel showing, tone of nickel showing", "tone of nickel showing", ""} {
		if got := rests(); got != want {
			t.Errorf("rests on %q, want %q", got, want)
		}
		if p.Grade.Set {
			p.Tone = given(catalog.Centi(0))
		}
		p.Grade = given(catalog.Centi(74_00))
	}
}

// TestBooksOfStages: what was sent is no lot, what is out of the drawer is not bought
// again, and what is gone is not left over.
func TestBooksOfStages(t *testing.T) {
	st := stagedJob()
	st.Pieces[5].Price = 0 // the hook is out of the drawer and hangs
	gone := st.Pieces[7]
	for i, stage := range []catalog.Stage{catalog.StageBroken, catalog.StageLost, catalog.StageSold} {
		p := gone
		p.ID, p.Stage = []string{"broken", "lost", "sold"}[i], stage
		st.Pieces = append(st.Pieces, p)
	}
	away := gone
	away.ID, away.InShop, away.Elsewhere = "away", true, true
	plated, sent, drawer := gone, gone, gone
	plated.ID, sent.ID, drawer.ID = "plated", "sent", "drawer"
	sentTo(&plated, 1, catalog.StagePlated)
	sentTo(&sent, 0, catalog.StageSeen)
	plated.Sent.Grade, sent.Sent.Grade = given(catalog.Centi(10_00)), given(catalog.Centi(10_00))
	drawer.InShop, drawer.Side, drawer.Days = true, catalog.Shops, catalog.Val[int]{Set: true, From: catalog.Origin{Source: catalog.Recorded}}
	drawer.Grade = given(catalog.Centi(10_00))
	st.Pieces = append(st.Pieces, away, plated, sent, drawer)
	plan := cheapest(t, st)
	for _, lot := range Lots(st, plan) {
		for _, i := range lot.Lines {
			if plan.Lines[i].Choice.Sent {
				t.Errorf("a sent piece is in a lot that is to be sent: %+v", lot)
			}
		}
	}
	for _, p := range Purchases(st, plan) {
		if p.Side == catalog.Shops {
			t.Errorf("bought out of the drawers: %+v", p)
		}
	}
	advice := map[string]string{}
	for _, s := range Leftover(st, plan) {
		advice[st.Pieces[s.Piece].ID] = s.Advice
	}
	for _, id := range []string{"broken", "lost", "sold", "away"} {
		if text, there := advice[id]; there {
			t.Errorf("%s is left over: %s", id, text)
		}
	}
	for id, want := range map[string]string{"plated": "at south, plated: fetch it", "sent": "at north: take it back, or let him finish", "drawer": "paid for, out of the drawer"} {
		if !strings.HasPrefix(advice[id], want) {
			t.Errorf("%s: %q, want %q", id, advice[id], want)
		}
	}
}

// TestOutcomesOfStages: in the middle of a job the ways a line may turn out come to what
// it is expected to cost, and to days that have yet to come.
func TestOutcomesOfStages(t *testing.T) {
	looked := 0
	for seed := range int64(200) {
		st := stagedState(seed, 3)
		plan := cheapest(t, st)
		for i := range plan.Lines {
			l := &plan.Lines[i]
			mean, chance := 0.0, 0.0
			for _, o := range Outcomes(st, l) {
				mean, chance = mean+o.Chance*float64(o.Cents), chance+o.Chance
				late := o.Days > DaysAtLatest(st, l) && !(o.Rescue && l.Fallback != nil) // a rescue after the fallback is no part of the plan
				if o.Days != 0 && o.Days <= st.Job.Elapsed || late {
					t.Errorf("seed %d: on day %d, now it is %d, and all is settled on %d", seed, o.Days, st.Job.Elapsed, DaysAtLatest(st, l))
				}
			}
			if looked++; math.Abs(mean-float64(l.Expected)) > 4 || math.Abs(chance-1) > 1e-9 {
				t.Errorf("seed %d: %.1f on average with a chance of %g, expected %d", seed, mean, chance, l.Expected)
			}
		}
	}
	if looked < 150 {
		t.Errorf("only %d lines looked at", looked)
	}
}

// TestAskingAgainInTheMiddle: whatever is asked of a job under way is answered on the
// same terms: nothing fails its check, no find is looked for where a piece hangs, and
// the first of the other plans is no cheaper.
func TestAskingAgainInTheMiddle(t *testing.T) {
	asked, hung := 0, 0
	ctx, set := context.Background(), solver.Settings{TimeLimit: time.Minute}
	for seed := range int64(90) {
		st := stagedState(seed, 3)
		plan := cheapest(t, st)
		if !plan.Has {
			continue
		}
		asked++
		front, err := Frontier(ctx, st, 5_00, set)
		if err != nil || len(front.Points) == 0 || front.Points[0].Plan.Expected > plan.Expected {
			t.Fatalf("seed %d: frontier: %v", seed, err)
		}
		others, err := Others(ctx, st, plan, 1, 1, set)
		if err != nil {
			t.Fatalf("seed %d: others: %v", seed, err)
		}
		for _, o := range others {
			if o.Plan != nil && o.Plan.Has && o.Kind == OtherNear && o.Plan.Expected < plan.Expected {
				t.Errorf("seed %d: %s costs %d, the advised plan %d", seed, o.Kind, o.Plan.Expected, plan.Expected)
			}
		}
		if _, err := Bindings(ctx, st, plan, set); err != nil {
			t.Fatalf("seed %d: bindings: %v", seed, err)
		}
		why, err := AskWhy(ctx, st, 0, set)
		if err != nil {
			t.Fatalf("seed %d: why: %v", seed, err)
		}
		for _, way := range why.Ways {
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
		if r := RiskOf(context.Background(), st, plan); 1-r.InTime > r.Rescues+1e-9 && st.Job.WithinDays.Set && LastDay(st, plan) <= st.Job.WithinDays.V {
			t.Errorf("seed %d: in time with %g, and all is settled on day %d of %d", seed, r.InTime, LastDay(st, plan), st.Job.WithinDays.V)
		}
	}
	if asked < 25 || hung < 5 {
		t.Errorf("%d jobs asked about, %d slots where a piece hangs", asked, hung)
	}
}

// TestOutsOfStages: why nothing can be done with a piece any more is told in its words.
func TestOutsOfStages(t *testing.T) {
	st := tinyState()
	st.Pieces[bare].Elsewhere = true
	st.Pieces[hazy].Stage = catalog.StageStripped
	st.Pieces[twisted].Stage = catalog.StageBroken
	st.Pieces[other].Stage, st.Pieces[other].HungIn = catalog.StageHung, right
	said := map[string]bool{}
	for _, o := range slices.Concat(Outs(st)...) {
		said[st.Slots[o.Slot].ID+" "+o.Label(st)+": "+o.Why] = true
	}
	for _, want := range []string{
		"rim-left bare: it is in use on another job", "rim-left hazy as-is: it is stripped", "rim-left twisted: it is broken",
		"rim-left other: it hangs in rim-right", "rim-right sold: other hangs there", "rim-right bare: it is in use on another job",
	} {
		if !said[want] {
			t.Errorf("not said: %s", want)
		}
	}
}
