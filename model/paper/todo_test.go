package paper

import (
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/internal/jobs"
	"brightset/model/internal/solved"
	"brightset/model/plan"
)

// TestTodoIsWhole: what is to be done is what the plan says, no piece and no cent more or
// less: every lot with its sum and its pieces, every purchase, every maker's work, every
// piece at a plater that waits for a word, and nothing twice.
func TestTodoIsWhole(t *testing.T) {
	kinds := map[ActKind]int{}
	for seed := range int64(jobs.Campaign(120, 600)) {
		st := jobs.Random(seed, 3, jobs.Options{})
		if seed%2 == 1 {
			st = jobs.StagedState(seed, 3)
		}
		pl := solved.Cheapest(t, st)
		if !pl.Has {
			continue
		}
		acts := Todo(pl)
		var sent, bought, made catalog.Cents
		pieces := 0
		type with struct {
			kind                  ActKind
			plater, maker, vendor int
			side                  catalog.Side
			trade                 int
		}
		seen := map[with]bool{}
		for i, a := range acts {
			kinds[a.Kind]++
			if i > 0 && acts[i-1].Kind > a.Kind {
				t.Errorf("seed %d: %v stands before %v", seed, acts[i-1].Kind, a.Kind)
			}
			w := with{a.Kind, a.Plater, a.Maker, a.Vendor, a.Side, a.Trade}
			if seen[w] {
				t.Errorf("seed %d: told twice: %+v", seed, w)
			}
			seen[w] = true
			for k, slot := range a.For {
				if slot == catalog.None {
					continue
				}
				if l := &pl.Lines[slot]; l.Choice.Piece != a.Pieces[k] && (a.Kind != ActHold || l.Fallback.Piece != a.Pieces[k]) {
					t.Errorf("seed %d: act %d, piece %d is not for slot %d", seed, a.Kind, a.Pieces[k], slot)
				}
			}
			switch a.Kind {
			case ActSend:
				sent += a.Cents
				pieces += a.Count
			case ActBuy, ActBuyFirst:
				bought += a.Cents
			case ActMake:
				made += a.Cents
			}
		}
		for _, lot := range Lots(pl) {
			sent -= lot.Total
			pieces -= lot.Pieces
		}
		for _, buy := range Purchases(pl) {
			bought -= buy.Total
			for _, i := range buy.Lines {
				if buy.Side == catalog.Shops && st.Pieces[pl.Lines[i].Choice.Piece].AtPlater() {
					bought += pl.Lines[i].Choice.Get
				}
			}
		}
		for i := range pl.Lines {
			for _, part := range pl.Lines[i].Choice.Parts {
				if part.Doer == plan.ByMaker {
					made -= part.Cost
				}
			}
		}
		if sent != 0 || pieces != 0 || bought != 0 || made != 0 {
			t.Errorf("seed %d: lots off by %d and %d pieces, purchases by %d, makers by %d", seed, sent, pieces, bought, made)
		}
		waits(t, seed, pl, acts)
		works(t, seed, pl, acts)
	}
	for _, k := range []ActKind{ActApprove, ActRecall, ActFetch, ActTryOn, ActBuyFirst, ActSend, ActBuy, ActTrade, ActHold,
		ActHang} {
		if kinds[k] == 0 {
			t.Errorf("no job asked for act %d: too few to tell", k)
		}
	}
}

// waits: a plater who has named his price gets his answer: go on if the plan has the piece,
// stop if it hasn't; what is plated is fetched.
func waits(t *testing.T, seed int64, pl *plan.Plan, acts []Act) {
	t.Helper()
	for i := range pl.Of.Pieces {
		p := &pl.Of.Pieces[i]
		if !p.AtPlater() || p.Gone() || (p.Stage != catalog.StagePriced && p.Stage != catalog.StagePlated) {
			continue
		}
		want, reserve := ActFetch, false
		for j := range pl.Lines {
			f := pl.Lines[j].Fallback
			reserve = reserve || f != nil && f.Piece == i
		}
		if p.Stage == catalog.StagePriced {
			want = ActStop
			for j := range pl.Lines {
				if pl.Lines[j].Choice.Piece == i {
					want = ActApprove
				}
			}
		}
		told := 0
		for _, a := range acts {
			for _, k := range a.Pieces {
				if k == i && a.Kind <= ActFetch {
					told++
					if a.Kind != want || a.Plater != p.Sent.Plater {
						t.Errorf("seed %d: piece %d, %v at %d: told %v", seed, i, p.Stage, p.Sent.Plater, a.Kind)
					}
				}
			}
		}
		waits := 1
		if want == ActStop && reserve {
			waits = 0 // nobody stops what a line falls back on
		}
		if told != waits {
			t.Errorf("seed %d: piece %d waits and is told %d times", seed, i, told)
		}
	}
}

// works: what is bought is there before it is worked on or sent, pieces are counted once
// however many works somebody does on them, and what is to be plated is not fitted before.
func works(t *testing.T, seed int64, pl *plan.Plan, acts []Act) {
	t.Helper()
	here := map[int]bool{}
	for i := range pl.Of.Pieces {
		here[i] = pl.Of.Pieces[i].Side == catalog.Customers
	}
	for _, a := range acts {
		count := 0
		for _, piece := range a.Pieces {
			switch a.Kind {
			case ActHold:
				if p := &pl.Of.Pieces[piece]; p.Vendor != a.Vendor {
					t.Errorf("seed %d: vendor %d is asked for piece %d of vendor %d", seed, a.Vendor, piece, p.Vendor)
				}
			case ActBuy, ActBuyFirst:
				here[piece] = true
			case ActMake, ActBench, ActSend:
				if p := &pl.Of.Pieces[piece]; !here[piece] && !takenOut(p) {
					t.Errorf("seed %d: act %d comes before piece %d is bought", seed, a.Kind, piece)
				}
			}
		}
		for _, slot := range a.Slots {
			if c := pl.Lines[slot].Choice; a.Kind == ActBench && c.Sent {
				t.Errorf("seed %d: piece %d is with a plater, not on the bench", seed, c.Piece)
			}
			count += choice.Needed(&pl.Of.Slots[slot])
		}
		if (a.Kind == ActMake || a.Kind == ActBench) && a.Count != count {
			t.Errorf("seed %d: act %d is on %d pieces, not %d", seed, a.Kind, count, a.Count)
		}
	}
}

// TestTodoByHand: a bundle is bought before its piece is sent, two works of the shop's on
// one piece are one piece on the bench, and fitting waits until the piece is plated.
func TestTodoByHand(t *testing.T) {
	st := &catalog.State{Slots: make([]catalog.Slot, 2), Pieces: make([]catalog.Piece, 2),
		Platers: make([]catalog.Plater, 1),
		Vendors: make([]catalog.Vendor, 1), Bundles: []catalog.Bundle{{Vendor: 0, Price: 90_00}}}
	st.Pieces[0] = catalog.Piece{Side: catalog.Vendors, Vendor: 0, Bundle: 0, Chance: catalog.One, Quantity: 1}
	st.Pieces[1] = catalog.Piece{Side: catalog.Customers, Vendor: catalog.None, Bundle: catalog.None, Chance: catalog.One,
		Quantity: 1, Fitted: true}
	own := func(work int, cents catalog.Cents) plan.Part {
		return plan.Part{Work: work, Doer: plan.ByShop, Maker: catalog.None, Cost: cents}
	}
	line := func(slot int, parts ...plan.Part) plan.Line {
		return plan.Line{Slot: slot, Choice: &plan.Choice{Slot: slot, Piece: slot, Work: catalog.WorkRepair, Plater: 0,
			Quote: catalog.None, Plate: 40_00, Parts: parts}}
	}
	pl := &plan.Plan{Of: st, Lines: []plan.Line{line(0, own(3, 7_00), own(4, 5_00)), line(1, own(catalog.None, 20_00))}}
	var kinds []ActKind
	for _, a := range Todo(pl) {
		kinds = append(kinds, a.Kind)
		if a.Kind == ActBench && (a.Count != 1 || a.Cents != 12_00) {
			t.Errorf("on the bench: %d pieces for %d", a.Count, a.Cents)
		}
	}
	if want := []ActKind{ActBuyFirst, ActBench, ActSend}; !slices.Equal(kinds, want) {
		t.Errorf("%v, want %v", kinds, want)
	}
}

// TestConcernsByHand: each is told above what is asked for and not at it.
func TestConcernsByHand(t *testing.T) {
	st := &catalog.State{Slots: make([]catalog.Slot, 2), Pieces: make([]catalog.Piece, 2),
		Platers: make([]catalog.Plater, 2), Matches: []catalog.Match{{ID: "pair", Slots: []int{0, 1}}}}
	st.Slots[0].Rescue = jobs.Given(catalog.Cents(380_00))
	st.Job.Budget, st.Job.WithinDays = jobs.Given(catalog.Cents(100_00)), jobs.Given(90)
	st.Job.SpentSum = 20_00
	line := func(slot, plater int, fails catalog.Micro) plan.Line {
		return plan.Line{
			Slot:   slot,
			Choice: &plan.Choice{Slot: slot, Piece: slot, Plater: plater, Quote: catalog.None, Plate: 40_00, Fails: fails},
		}
	}
	pl := &plan.Plan{Of: st, Lines: []plan.Line{line(0, 0, 20_000), line(1, 0, 9_999)}}
	kindsOf := func(o Outlook) (all []ConcernKind) {
		for _, c := range Concerns(pl, o) {
			all = append(all, c.Kind)
		}
		return all
	}
	same := func(name string, got []ConcernKind, want ...ConcernKind) {
		t.Helper()
		if len(got) != len(want) {
			t.Errorf("%s: %v, want %v", name, got, want)
			return
		}
		for i := range got {
			if got[i] != want[i] {
				t.Errorf("%s: %v, want %v", name, got, want)
			}
		}
	}
	same("all within", kindsOf(Outlook{Nine: 100_00, Days: 90, Owner: 120_00}), ConcernIrreplaced, ConcernGuess)
	same("all above", kindsOf(Outlook{Nine: 100_01, Days: 91, Owner: 120_01}),
		ConcernBudget, ConcernOwner, ConcernDate, ConcernIrreplaced, ConcernGuess)
	st.Job.BudgetOn = catalog.OnExpected
	same("on what is expected", kindsOf(Outlook{Nine: 100_01, Days: 90, Owner: 120_01}), ConcernOwner, ConcernIrreplaced,
		ConcernGuess)
	st.Job.BudgetOn = catalog.OnOutlay
	pl.Lines[1].Choice.Plater = 1
	same("two platers", kindsOf(Outlook{}), ConcernPairSplit, ConcernIrreplaced, ConcernGuess)
	pl.Lines[1].Choice.Plater, pl.Lines[1].Choice.Sent = 0, true
	st.Pieces[1].Sent.Lot = "first"
	same("one lot is there already", kindsOf(Outlook{}), ConcernPairSplit, ConcernIrreplaced, ConcernGuess)
	if c := Concerns(pl, Outlook{})[2]; c.Cents != 40_00 || len(c.Slots) != 1 {
		t.Errorf("guessed: %+v", c)
	}
}

// TestTodoLeavesReserveAlone: a piece at a plater's that a line falls back on is neither
// stopped nor taken back; one that no line has anything to do with is.
func TestTodoLeavesReserveAlone(t *testing.T) {
	for _, stage := range []catalog.Stage{catalog.StageSeen, catalog.StageStripped, catalog.StagePriced} {
		st := &catalog.State{
			Slots:   make([]catalog.Slot, 1),
			Pieces:  make([]catalog.Piece, 2),
			Platers: make([]catalog.Plater, 1),
		}
		st.Pieces[0] = catalog.Piece{Stage: catalog.StageHung, Bundle: catalog.None, Vendor: catalog.None}
		st.Pieces[1] = catalog.Piece{
			Stage:  stage,
			Sent:   catalog.Sent{Was: true, Count: 1},
			Bundle: catalog.None,
			Vendor: catalog.None,
		}
		hangs := &plan.Choice{Work: catalog.WorkAsIs, Plater: catalog.None, Quote: catalog.None}
		sent := &plan.Choice{Piece: 1, Work: catalog.WorkReplate, Sent: true, Quote: catalog.None}
		pl := &plan.Plan{Of: st, Lines: []plan.Line{{Choice: hangs, Fallback: sent}}}
		if acts := Todo(pl); len(acts) != 0 {
			t.Errorf("%v, in reserve: %+v", stage, acts)
		}
		pl.Lines[0].Fallback = nil
		want := ActRecall
		if stage == catalog.StagePriced {
			want = ActStop
		}
		if acts := Todo(pl); len(acts) != 1 || acts[0].Kind != want || acts[0].Pieces[0] != 1 {
			t.Errorf("%v, not used: %+v", stage, acts)
		}
	}
}
