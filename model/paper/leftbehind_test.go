package paper

import (
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
)

// TestLeftBehind: what the kept plan sends along, and that has to match what went, is told
// of; by how far tones may be apart, and the drift, one lot or two is enough.
func TestLeftBehind(t *testing.T) {
	nothing := func(*catalog.State) {}
	stayed := func(drift catalog.Centi, parted bool) []Behind {
		return []Behind{{jobs.Other, jobs.Bare, jobs.North, drift, parted}}
	}
	for name, c := range map[string]struct {
		drift  catalog.Centi
		change func(*catalog.State)
		want   []Behind
	}{
		"one stayed":    {change: nothing, want: stayed(0, false)},
		"a small drift": {drift: 80, change: nothing, want: stayed(80, false)},
		"a great drift": {drift: 2_01, change: nothing, want: stayed(2_01, true)},
		"nothing kept":  {change: func(st *catalog.State) { st.Kept = nil }},
		"both went": {change: func(st *catalog.State) {
			st.Pieces[jobs.Other].Sent = st.Pieces[jobs.Bare].Sent
		}},
		"it broke":         {change: func(st *catalog.State) { st.Pieces[jobs.Other].Stage = catalog.StageBroken }},
		"to somebody else": {change: func(st *catalog.State) { st.Kept.Lines[1].Plater = st.Platers[jobs.South].ID }},
		"no match":         {change: func(st *catalog.State) { st.Matches = nil }},
	} {
		st := jobs.Tiny()
		st.Matches = []catalog.Match{{ID: "rims", Slots: []int{jobs.Left, jobs.Right},
			ToneWithin: jobs.Given(catalog.Centi(2_00))}}
		st.Platers[jobs.North].Drift = c.drift
		for s, i := range []int{jobs.Bare, jobs.Other} {
			p := &st.Pieces[i]
			p.Fits, p.Findings, p.Metal = []int{s}, nil, jobs.Steel
			st.Slots[s].Area = jobs.Given(catalog.Micro(1_000_000))
			st.Kept = keptToo(st, s, i)
		}
		jobs.SentTo(&st.Pieces[jobs.Bare], jobs.North, catalog.StageSeen)
		c.change(st)
		if got := LeftBehind(st, []int{jobs.Bare}); !slices.Equal(got, c.want) {
			t.Errorf("%s: %+v, want %+v", name, got, c.want)
		}
	}
}

// keptToo adds to the kept plan that a piece is sent to north for a slot.
func keptToo(st *catalog.State, slot, piece int) *catalog.Kept {
	kept := &catalog.Kept{}
	if st.Kept != nil {
		kept = st.Kept
	}
	q := &st.Platers[jobs.North]
	kept.Lines = append(kept.Lines, catalog.KeptLine{Slot: st.Slots[slot].ID, KeptChoice: catalog.KeptChoice{
		Piece: st.Pieces[piece].Key(), Work: catalog.WorkReplate, Plater: q.ID, Level: q.Levels[len(q.Levels)-1].Name}})
	return kept
}

// TestShortLots: of what was paid up to a least lot, that comes off again which the kept plan's
// other pieces would make up for: all that is missing, or all their work.
func TestShortLots(t *testing.T) {
	st := jobs.Tiny()
	for s, i := range []int{jobs.Bare, jobs.Other} {
		p := &st.Pieces[i]
		p.Fits, p.Findings, p.Metal = []int{s}, nil, jobs.Steel
		st.Slots[s].Area = jobs.Given(catalog.Micro(1_000_000))
		st.Kept = keptToo(st, s, i)
	}
	jobs.SentTo(&st.Pieces[jobs.Bare], jobs.North, catalog.StageSeen)
	sent, q := &st.Pieces[jobs.Bare].Sent, &st.Platers[jobs.North]
	work := sent.Cost * catalog.Cents(sent.Count)
	plate := keptToGo(st, &st.Kept.Lines[1]).plate
	for missing, saved := range map[catalog.Cents]catalog.Cents{-5_00: 0, 0: 0, 1: 1, plate - 1: plate - 1,
		plate + 9_00: plate} {
		q.Minimum = work + missing
		got := ShortLots(st, []int{jobs.Bare})
		if saved == 0 && len(got) > 0 || saved > 0 && (len(got) != 1 || got[0].Saved != saved ||
			got[0].Plater != jobs.North || !slices.Equal(got[0].Pieces, []int{jobs.Other})) {
			t.Errorf("%d missing: %+v, want %d off again", missing, got, saved)
		}
	}
	st.Pieces[jobs.Other].Sent = *sent
	if got := ShortLots(st, []int{jobs.Bare}); len(got) > 0 {
		t.Errorf("both went: %+v", got)
	}
}
