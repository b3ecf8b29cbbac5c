package model

import (
	"context"
	"math/rand/v2"
	"testing"

	"brightset/catalog"
	"brightset/solver"
)

// randomStages puts a random job in the middle of things.
func randomStages(r *rand.Rand, st *catalog.State) {
	if randomChance(r, 40) {
		st.Job.Elapsed = randomFrom(r, 1, 40)
	}
	for i := range st.Pieces {
		switch roll := r.IntN(100); {
		case roll < 8:
			st.Pieces[i].Stage = []catalog.Stage{catalog.StageBroken, catalog.StageLost, catalog.StageSold}[r.IntN(3)]
		case roll < 10 && st.Pieces[i].InShop:
			st.Pieces[i].Elsewhere = true
		case roll < 16:
			st.Pieces[i].Stage = catalog.StageStripped
		case roll < 26:
			comeBack(r, &st.Pieces[i])
		case roll < 50 && len(st.Platers) > 0:
			sendOff(r, st, i)
		case roll < 54 && len(st.Pieces[i].Fits) > 0:
			hang(st, i)
		}
	}
}

func comeBack(r *rand.Rand, p *catalog.Piece) {
	p.Stage, p.Findings = catalog.StageBack, nil
	p.Grade, p.Fresh = given(randomFrom(r, catalog.Centi(50_00), 98_00)), given(true)
}

func sendOff(r *rand.Rand, st *catalog.State, i int) {
	p := &st.Pieces[i]
	q := r.IntN(len(st.Platers))
	level := ""
	if n := len(st.Platers[q].Levels); n > 0 {
		level = st.Platers[q].Levels[r.IntN(n)].Name
	}
	p.Stage = []catalog.Stage{catalog.StageSeen, catalog.StageStripped, catalog.StagePriced, catalog.StageApproved, catalog.StagePlated}[r.IntN(5)]
	p.Sent = catalog.Sent{Was: true, Lot: "x-1", Since: r.IntN(30), Count: 1, Quote: catalog.Quote{
		Plater: q, Work: []string{catalog.WorkReplate, catalog.WorkRepair}[r.IntN(2)], Level: level, Cost: randomFrom(r, catalog.Cents(0), 200_00),
		Breakage: given(randomFrom(r, catalog.Micro(0), 300_000)), Refused: given(randomFrom(r, catalog.Micro(0), 100_000)),
		Grade: given(randomFrom(r, catalog.Centi(60_00), 98_00)), Tone: given(catalog.Centi(0)), Fresh: given(true),
	}}
	if r.IntN(2) == 0 {
		p.Sent.Days = given(r.IntN(60))
	}
}

// hang puts a piece in the first slot it fits, if nothing hangs there.
func hang(st *catalog.State, i int) {
	p := &st.Pieces[i]
	s := p.Fits[0]
	if hungIn(st, s) != catalog.None || p.Quantity < st.Slots[s].Quantity {
		return
	}
	p.Stage, p.HungIn, p.Grade, p.Findings = catalog.StageHung, s, given(catalog.Centi(85_00)), nil
}

// TestStagesAgainstBrute: in the middle of a job the least total is that of the
// exhaustive search, and no sent piece turns a lot on.
func TestStagesAgainstBrute(t *testing.T) {
	feasible, sent, hung := 0, 0, 0
	for seed := range int64(500) {
		st := randomState(seed, 1+int(seed%4), randomOptions{})
		randomStages(rand.New(rand.NewPCG(uint64(seed), 21)), st)
		want, ok, _ := bruteForce(st)
		plan, err := Solve(context.Background(), st, solver.Settings{})
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if plan.Has != ok || (ok && int64(plan.Expected) != want) {
			t.Errorf("seed %d: %v %d, want %v %d", seed, plan.Has, plan.Expected, ok, want)
		}
		if !ok {
			continue
		}
		feasible++
		for _, l := range plan.Lines {
			if l.Choice.Sent {
				sent++
			}
			if st.Pieces[l.Choice.Piece].Stage == catalog.StageHung {
				hung++
			}
		}
	}
	if feasible < 100 || sent < 60 || hung < 20 {
		t.Errorf("%d feasible, %d sent pieces planned, %d hung", feasible, sent, hung)
	}
}

// TestStageDamages: a plan that forgets how far a piece has come is named.
func TestStageDamages(t *testing.T) {
	caught := map[string]int{}
	for seed := range int64(300) {
		st := randomState(seed, 3, randomOptions{})
		plan := cheapest(t, st)
		if !plan.Has {
			continue
		}
		k := plan.Lines[int(seed)%len(plan.Lines)].Choice
		for name, damage := range map[string]func(*catalog.Piece){
			"gone":     func(p *catalog.Piece) { p.Stage = catalog.StageBroken },
			"stripped": func(p *catalog.Piece) { p.Stage = catalog.StageStripped },
			"sent": func(p *catalog.Piece) {
				p.Sent = catalog.Sent{Was: true, Quote: catalog.Quote{Plater: (k.Plater + 1) % max(1, len(st.Platers)), Work: catalog.WorkReplate}}
			},
			"hung": func(p *catalog.Piece) {
				p.Stage, p.HungIn = catalog.StageHung, (k.Slot+1)%len(st.Slots)
			},
		} {
			moved := st.Clone()
			damage(&moved.Pieces[k.Piece])
			for _, v := range Check(moved, plan) {
				if v.Rule == name {
					caught[name]++
					break
				}
			}
		}
	}
	for _, name := range []string{"gone", "stripped", "sent", "hung"} {
		if caught[name] < 20 {
			t.Errorf("%s: named %d times only", name, caught[name])
		}
	}
}

// TestReplanNotDearer: after whatever happened, the new plan costs no more than the old
// one carried on: its choices where they still can be, else what was held in reserve.
func TestReplanNotDearer(t *testing.T) {
	compared, cheaper, broken := 0, 0, 0
	for seed := range int64(700) {
		st := randomState(seed, 1+int(seed%4), randomOptions{})
		was := cheapest(t, st)
		if !was.Has {
			continue
		}
		happens(rand.New(rand.NewPCG(uint64(seed), 33)), st, was)
		now := cheapest(t, st)
		old := carriedOn(st, was)
		if old == nil {
			broken++
			continue
		}
		if bad := Check(st, old); len(bad) > 0 {
			broken++
			continue
		}
		compared++
		if !now.Has || now.Expected > old.Expected {
			t.Errorf("seed %d: %v, planned again %d, carried on %d", seed, now.Status, now.Expected, old.Expected)
		}
		if now.Has && now.Expected < old.Expected {
			cheaper++
		}
	}
	if compared < 100 || cheaper < 10 || broken < 20 {
		t.Errorf("%d compared, %d of them cheaper planned again, %d could not be carried on", compared, cheaper, broken)
	}
}

// happens lets things happen to the pieces of a plan.
func happens(r *rand.Rand, st *catalog.State, plan *Plan) {
	st.Job.Elapsed = r.IntN(15)
	for _, l := range plan.Lines {
		p := &st.Pieces[l.Choice.Piece]
		switch roll := r.IntN(10); {
		case roll < 2:
			p.Stage = catalog.StageBroken
		case roll < 4 && l.Choice.Plated():
			terms := Terms(st, l.Choice)
			p.Sent = catalog.Sent{Was: true, Quote: terms, Count: 1, Since: 3}
			p.Stage = []catalog.Stage{catalog.StageApproved, catalog.StagePriced}[r.IntN(2)]
			if p.Stage == catalog.StagePriced {
				p.Sent.Cost += p.Sent.Cost * catalog.Cents(r.IntN(100)) / 100
			}
		case roll < 5 && l.Choice.Plated():
			p.Sent = catalog.Sent{Was: true, Quote: Terms(st, l.Choice)}
			comeBack(r, p)
		case roll < 6 && p.Chance < catalog.One:
			p.Chance = catalog.One
		}
	}
	for i := range st.Pieces {
		for q := range st.Pieces[i].Quotes {
			if randomChance(r, 20) {
				st.Pieces[i].Quotes[q].Cost = st.Pieces[i].Quotes[q].Cost * catalog.Cents(70+r.IntN(80)) / 100
			}
		}
	}
}

// carriedOn is the old plan under the new facts; nil where a slot has nothing left.
func carriedOn(st *catalog.State, was *Plan) *Plan {
	var lines []*bruteLine
	for i := range was.Lines {
		l := &was.Lines[i]
		choices := bruteChoices(st, l.Slot)
		k, f := stillThere(st, choices, l.Choice), stillThere(st, choices, l.Fallback)
		if k == nil || !bruteChosenMay(st, k) {
			k, f = f, nil
		}
		if k == nil {
			return nil
		}
		if k.Fails == 0 || (f != nil && !bruteReserveMay(st, f)) {
			f = nil
		}
		lines = append(lines, &bruteLine{k: k, f: f, cost: judgeExpected(st, k, f)})
	}
	var trades []int
	for _, c := range was.Charges {
		if c.Kind == ChargeTrade {
			trades = append(trades, c.Of)
		}
	}
	return brutePlan(st, lines, trades)
}

// stillThere is what has become of a choice: the same, or at the plater, or back.
func stillThere(st *catalog.State, choices []*Choice, c *Choice) *Choice {
	if c == nil {
		return nil
	}
	p := &st.Pieces[c.Piece]
	for _, o := range choices {
		switch {
		case o.Piece != c.Piece:
		case sameChoice(o, c), o.Sent:
			return o
		case p.Stage == catalog.StageBack && p.Sent.Was && o.Work == catalog.WorkAsIs:
			return o
		}
	}
	return nil
}
