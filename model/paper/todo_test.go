package paper

import (
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/internal/jobs"
	"brightset/model/internal/solved"
	"brightset/model/plan"
	"brightset/testdata/campaign"
)

// TestTodoIsWhole: what is to be done is what the plan says, no piece and no cent more or
// less: every lot with its sum and its pieces, every purchase, every maker's work, every
// piece at a plater that waits for a word, and nothing twice.
func TestTodoIsWhole(t *testing.T) {
	kinds := map[ActKind]int{}
	for seed := range int64(campaign.Cases(400, 600)) {
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
			c := pl.Lines[i].Choice
			for _, part := range c.Parts {
				later := part.Work != catalog.None && c.Plated() && st.Tables.Works[part.Work].AfterPlating() // when it is back
				if part.Doer == plan.ByMaker && !later {
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
// wait if it holds it in reserve, else stop; what is plated is fetched.
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
			if want = ActStop; reserve {
				want = ActPause
			}
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
		if told != 1 {
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
