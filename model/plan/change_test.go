package plan_test

import (
	"slices"
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/catalog/event"
	"brightset/catalog/journal"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
)

// happened makes a journal of what is written as "action piece-or-table.id key=value".
func happened(entries ...string) *catalog.Record {
	r := &catalog.Record{}
	for i, text := range entries {
		words := strings.Fields(text)
		e := journal.Entry{Seq: i + 1, Action: event.Action(words[0])}
		for _, w := range words[1:] {
			table, rest, _ := strings.Cut(w, ".")
			id, values, _ := strings.Cut(rest, " ")
			id, pair, _ := strings.Cut(id, "/")
			c := journal.Change{Target: []string{table, id}, Old: map[event.Key]any{},
				New: map[event.Key]any{"stage": "x" + values}}
			if key, value, ok := strings.Cut(pair, "="); ok {
				c.New = map[event.Key]any{event.Key(key): value}
			}
			e.Changes = append(e.Changes, c)
		}
		r.Entries = append(r.Entries, e)
	}
	return r
}

// shiftState is tinyState with a piece of the shop's.
func shiftState() *catalog.State {
	st := jobs.Tiny()
	st.Pieces[jobs.Other].InShop = true
	return st
}

// plated and asIs are choices by hand.
func platedAt(slot, piece, plater int, level string, fails catalog.Micro) *plan.Choice {
	return &plan.Choice{Slot: slot, Piece: piece, Work: catalog.WorkReplate, Plater: plater, Level: level,
		Quote: catalog.None, Fails: fails}
}

func hangs(slot, piece int) *plan.Choice {
	return &plan.Choice{Slot: slot, Piece: piece, Work: catalog.WorkAsIs, Plater: catalog.None, Quote: catalog.None}
}

func TestPlanChanges(t *testing.T) {
	// planned: left hangs twisted plated by north, hazy in reserve; right hangs other as it is
	planned := func() []plan.Line {
		return []plan.Line{{Slot: jobs.Left, Choice: platedAt(jobs.Left, jobs.Twisted, jobs.North, "show", 50_000),
			Fallback: hangs(jobs.Left, jobs.Hazy)},
			{Slot: jobs.Right, Choice: hangs(jobs.Right, jobs.Other)}}
	}
	tests := []struct {
		name   string
		record *catalog.Record
		since  int
		now    func(st *catalog.State, lines []plan.Line)
		want   string // slot, what kind, entries; several with ; between
	}{
		{"nothing", happened(), 0, nil, ""},
		{"sent as planned", happened("sent piece.twisted", "approved piece.twisted"), 0,
			func(st *catalog.State, l []plan.Line) {
				jobs.SentTo(&st.Pieces[jobs.Twisted], jobs.North, catalog.StageApproved)
				l[0].Choice.Sent = true
			}, ""},
		{"plated as planned, and needs nothing in reserve", happened("plated piece.twisted"), 0,
			func(st *catalog.State, l []plan.Line) {
				jobs.SentTo(&st.Pieces[jobs.Twisted], jobs.North, catalog.StagePlated)
				l[0].Choice.Fails, l[0].Fallback = 0, nil
			}, ""},
		{"back as planned", happened("back piece.twisted"), 0, func(st *catalog.State, l []plan.Line) {
			jobs.SentTo(&st.Pieces[jobs.Twisted], jobs.North, catalog.StageBack)
			l[0].Choice, l[0].Fallback = hangs(jobs.Left, jobs.Twisted), nil
		}, ""},
		{"hung as planned", happened("hung piece.twisted", "hung piece.shop:other"), 0,
			func(st *catalog.State, l []plan.Line) {
				jobs.SentTo(&st.Pieces[jobs.Twisted], jobs.North, catalog.StageHung)
				st.Pieces[jobs.Other].Stage = catalog.StageHung
				l[0].Choice, l[0].Fallback = hangs(jobs.Left, jobs.Twisted), nil
			}, ""},
		{"back from somebody else", happened("sent piece.twisted", "back piece.twisted"), 0,
			func(st *catalog.State, l []plan.Line) {
				jobs.SentTo(&st.Pieces[jobs.Twisted], jobs.South, catalog.StageBack)
				l[0].Choice, l[0].Fallback = hangs(jobs.Left, jobs.Twisted), nil
			}, "rim-left changed 2"},
		{"the reserve is sent ahead", happened("sent piece.hazy"), 0, func(st *catalog.State, l []plan.Line) {
			jobs.SentTo(&st.Pieces[jobs.Hazy], jobs.North, catalog.StageApproved)
			l[0].Fallback = platedAt(jobs.Left, jobs.Hazy, jobs.North, "show", 10_000)
		}, "rim-left reserve 1"},
		{"the reserve is hung off elsewhere and nothing takes its place", happened("hung piece.hazy"), 0,
			func(st *catalog.State, l []plan.Line) { l[0].Fallback = nil }, "rim-left reserve 1"},
		{"it broke: what went as planned is no reason", happened("sent piece.twisted", "approved piece.twisted",
			"broke piece.twisted"), 0, func(st *catalog.State, l []plan.Line) {
			st.Pieces[jobs.Twisted].Stage = catalog.StageBroken
			l[0].Choice, l[0].Fallback = hangs(jobs.Left, jobs.Hazy), nil
		}, "rim-left changed 3"},
		{"taken back, and to be sent once more", happened("sent piece.twisted", "recalled piece.twisted"), 0, nil,
			"rim-left again 2"},
		{"taken back before the plan was kept", happened("recalled piece.twisted"), 1, nil, ""},
		{"sent elsewhere than planned", happened("sent piece.twisted"), 0, func(st *catalog.State, l []plan.Line) {
			jobs.SentTo(&st.Pieces[jobs.Twisted], jobs.South, catalog.StageApproved)
			l[0].Choice = platedAt(jobs.Left, jobs.Twisted, jobs.South, "show", 50_000)
		}, "rim-left changed 1"},
		{"stripped, found worse, refused", happened("stripped piece.twisted", "refused piece.twisted "+
			"ban.b/piece=job:twisted"), 0, func(st *catalog.State, l []plan.Line) {
			l[0].Choice, l[0].Fallback = hangs(jobs.Left, jobs.Hazy), nil
		}, "rim-left changed 1 2"},
		{"bought and sent as planned, and another in reserve", happened("bought piece.twisted", "sent piece.twisted"),
			0, func(st *catalog.State, l []plan.Line) { l[0].Fallback = hangs(jobs.Left, jobs.Sold) },
			"rim-left others"},
		{"a better one to have in reserve turned up", happened("sent piece.twisted", "new piece.sold"), 0,
			func(st *catalog.State, l []plan.Line) { l[0].Fallback = hangs(jobs.Left, jobs.Sold) },
			"rim-left reserve 2"},
		{"the reserve was sold", happened("sold piece.hazy"), 0, func(st *catalog.State,
			l []plan.Line) {
			l[0].Fallback = hangs(jobs.Left, jobs.Sold)
		}, "rim-left reserve 1"},
		{"a lead failed", happened("failed piece.shop:other"), 0, func(st *catalog.State,
			l []plan.Line) {
			l[1].Choice = hangs(jobs.Right, jobs.Sold)
		}, "rim-right changed 1"},
		{"a piece turned up", happened("new piece.bare"), 0, func(st *catalog.State,
			l []plan.Line) {
			l[1].Choice = hangs(jobs.Right, jobs.Bare)
		}, "rim-right changed 1"},
		{"the price of another", happened("quoted piece.bare"), 0, func(st *catalog.State, l []plan.Line) {
			l[1].Choice = platedAt(jobs.Right, jobs.Bare, jobs.South, "driver", 0)
		}, "rim-right changed 1"},
		{"a lock", happened("lock lock.rim-right"), 0, func(st *catalog.State, l []plan.Line) {
			l[1].Choice = hangs(jobs.Right, jobs.Sold)
		}, "rim-right changed 1"},
		{"a lock with a name of its own", happened("lock lock.mine/slot=rim-right"), 0, func(st *catalog.State,
			l []plan.Line) {
			l[1].Choice = hangs(jobs.Right, jobs.Sold)
		}, "rim-right changed 1"},
		{"a ban on the shop's piece", happened("ban ban.none/piece=shop:other"), 0, func(st *catalog.State,
			l []plan.Line) {
			l[1].Choice = hangs(jobs.Right, jobs.Sold)
		}, "rim-right changed 1"},
		{"a ban on another piece", happened("ban ban.none/piece=job:bagged"), 0,
			func(st *catalog.State, l []plan.Line) { l[1].Choice = hangs(jobs.Right, jobs.Sold) }, "rim-right others"},
		{"what was before is no reason", happened("broke piece.shop:other", "plan plan.rim-right",
			"note piece.twisted"), 1, func(st *catalog.State, l []plan.Line) {
			l[1].Choice = hangs(jobs.Right, jobs.Sold)
		}, "rim-right others"},
		{"keeping a plan is no reason", happened("plan plan.rim-right/piece=shop:other"), 0,
			func(st *catalog.State, l []plan.Line) { l[1].Choice = hangs(jobs.Right, jobs.Sold) }, "rim-right others"},
		{"it follows from the rest", happened("broke piece.twisted"), 0, func(st *catalog.State, l []plan.Line) {
			l[0].Choice, l[0].Fallback = hangs(jobs.Left, jobs.Hazy), nil
			l[1].Choice = hangs(jobs.Right, jobs.Sold)
		}, "rim-left changed 1; rim-right others"},
		{"they change places", happened("graded piece.twisted"), 0, func(st *catalog.State, l []plan.Line) {
			l[0].Choice, l[0].Fallback = hangs(jobs.Left, jobs.Other), nil
			l[1].Choice = platedAt(jobs.Right, jobs.Twisted, jobs.North, "show", 50_000)
		}, "rim-left from rim-right to rim-right others; rim-right from rim-left to rim-left others"},
		{"it goes where another broke", happened("broke piece.twisted", "graded piece.shop:other"), 0,
			func(st *catalog.State, l []plan.Line) {
				l[0].Choice, l[0].Fallback = hangs(jobs.Left, jobs.Other), nil
				l[1].Choice = hangs(jobs.Right, jobs.Sold)
			}, "rim-left from rim-right changed 1; rim-right to rim-left others"},
		{"a slot more and one less", happened(), 0, func(st *catalog.State, l []plan.Line) {
			st.Slots[jobs.Right].ID = "hook"
		}, "hook new; rim-right none"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			st := shiftState()
			was := plan.KeptLines(&plan.Plan{Of: st, Lines: planned()})
			st.Record = tt.record
			pl := &plan.Plan{Of: st, Lines: planned()}
			if tt.now != nil {
				tt.now(st, pl.Lines)
			}
			var got []string
			for _, s := range plan.PlanChanges(was, tt.since, pl) {
				got = append(got, shiftWords(&s))
			}
			slices.Sort(got)
			if text := strings.Join(got, "; "); text != tt.want {
				t.Errorf("got %q, want %q", text, tt.want)
			}
		})
	}
}

// TestShiftsOfOtherWork: a piece that was cleaned and hangs, and one in reserve that is
// back from the plater it was meant for, went the way planned for them.
func TestShiftsOfOtherWork(t *testing.T) {
	st := shiftState()
	cleaned := hangs(jobs.Right, jobs.Hazy)
	cleaned.Work = catalog.WorkClean
	was := plan.KeptLines(&plan.Plan{Of: st, Lines: []plan.Line{
		{Slot: jobs.Left, Choice: platedAt(jobs.Left, jobs.Twisted, jobs.North, "show", 50_000),
			Fallback: platedAt(jobs.Left, jobs.Bare, jobs.South, "show", 10_000)},
		{Slot: jobs.Right, Choice: cleaned}}})
	st.Pieces[jobs.Hazy].Stage = catalog.StageHung
	jobs.SentTo(&st.Pieces[jobs.Bare], jobs.South, catalog.StageBack)
	now := &plan.Plan{Of: st, Lines: []plan.Line{
		{Slot: jobs.Left, Choice: platedAt(jobs.Left, jobs.Twisted, jobs.North, "show", 50_000),
			Fallback: hangs(jobs.Left, jobs.Bare)},
		{Slot: jobs.Right, Choice: hangs(jobs.Right, jobs.Hazy)}}}
	if all := plan.PlanChanges(was, 0, now); len(all) > 0 {
		t.Errorf("%d changes, the first in %s", len(all), all[0].Slot)
	}
	jobs.SentTo(&st.Pieces[jobs.Bare], jobs.North, catalog.StageBack) // not by whom it was meant to be
	st.Pieces[jobs.Hazy].Stage = catalog.StageSeen                    // as it is, and not cleaned
	if all := plan.PlanChanges(was, 0, now); len(all) != 2 || !all[0].Reserve || all[1].Reserve {
		t.Errorf("changes %+v", all)
	}
}

func shiftWords(s *plan.PlanChange) string {
	words := []string{s.Slot}
	if s.From != "" {
		words = append(words, "from "+s.From)
	}
	if s.To != "" {
		words = append(words, "to "+s.To)
	}
	switch {
	case s.Was == nil:
		return s.Slot + " new"
	case s.Now == nil:
		return s.Slot + " none"
	case s.ByOthers:
		return strings.Join(append(words, "others"), " ")
	case s.Again:
		words = append(words, "again")
	case s.Reserve:
		words = append(words, "reserve")
	default:
		words = append(words, "changed")
	}
	for _, e := range s.Because {
		words = append(words, string(rune('0'+e.Seq)))
	}
	return strings.Join(words, " ")
}
