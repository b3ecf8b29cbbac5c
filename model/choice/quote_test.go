package choice

import (
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
)

// The estimate these fall back on is that of TestEstimate, its parts by the shop
// and by makers where said.
func TestQuote(t *testing.T) {
	type want struct {
		work              string
		plate, other      catalog.Cents
		breakage, refused catalog.Micro
		grade, tone       catalog.Centi
		fresh             bool
		days, warnings    int
	}
	tests := []struct {
		name  string
		quote catalog.Quote
		want  want
	}{
		{"all left open", catalog.Quote{Level: "show"},
			want{catalog.WorkRepair, 150_00, 0, 71_400, 50_000, 90_00, -25, true, 40, 0}},
		{"all given", catalog.Quote{Level: "show", Work: catalog.WorkRepair,
			Breakage: jobs.Given(catalog.Micro(30_000)), Refused: jobs.Given(catalog.Micro(0)),
			Grade: jobs.Given(catalog.Centi(92_00)), Tone: jobs.Given(catalog.Centi(1_00)), Fresh: jobs.Given(false),
			Days: jobs.Given(12)},
			want{catalog.WorkRepair, 150_00, 0, 30_000, 0, 92_00, 1_00, false, 12, 0}},
		// no level and two to choose from: no estimate, so no breakage either
		{"no level", catalog.Quote{Grade: jobs.Given(catalog.Centi(92_00))},
			want{catalog.WorkReplate, 150_00, 0, 0, 0, 92_00, 0, true, 40, 0}},
		// he refuses bent pieces, but quoted this one; nobody straightens for him,
		// so only the tone of the level is left to go by
		{"refused defect", catalog.Quote{Plater: jobs.South, Level: "show", Grade: jobs.Given(catalog.Centi(92_00))},
			want{catalog.WorkReplate, 150_00, 0, 0, 0, 92_00, -25, true, 40, 1}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			st := jobs.Tiny()
			tt.quote.Cost = 150_00
			st.Pieces[jobs.Twisted].Quotes = []catalog.Quote{tt.quote}
			all := Choices(st)[jobs.Left]
			i := slices.IndexFunc(all, func(c plan.Choice) bool { return c.Piece == jobs.Twisted && c.Quote == 0 })
			if i < 0 {
				t.Fatal("no choice")
			}
			c := all[i]
			got := want{c.Work, c.Plate, c.Other, c.Breakage, c.Refused, c.Grade, c.Tone, c.Fresh, c.Days,
				len(c.Warnings)}
			if got != tt.want {
				t.Errorf("got  %+v\nwant %+v", got, tt.want)
			}
			for _, c := range all {
				if c.Piece == jobs.Twisted && c.Plater == tt.quote.Plater && c.Quote == catalog.None {
					t.Error("a quote leaves no estimate with that plater")
				}
			}
		})
	}
}

// The quote covers the plater's part. The shop's filling stays (0.6 hours at
// 40.00) unless the quote is for replating alone.
func TestQuoteAndOthers(t *testing.T) {
	for _, tt := range []struct {
		work   string
		before catalog.Cents
	}{{"", 24_00}, {catalog.WorkRepair, 24_00}, {catalog.WorkReplate, 0}} {
		st := jobs.Tiny()
		st.Pieces[jobs.Twisted].Findings = []catalog.Finding{{Defect: jobs.Pits, Severity: catalog.Moderate, Count: 3,
			Where: catalog.Face}}
		st.Pieces[jobs.Twisted].Quotes = []catalog.Quote{{Plater: jobs.North, Level: "show", Work: tt.work,
			Cost: 99_00}}
		for _, c := range Choices(st)[jobs.Left] {
			if c.Piece == jobs.Twisted && c.Quote == 0 && (c.Before != tt.before || c.Plate != 99_00) {
				t.Errorf("work %q: before %d, want %d", tt.work, c.Before, tt.before)
			}
		}
	}
}

func TestQuoteWithoutGrade(t *testing.T) {
	st := jobs.Tiny()
	st.Pieces[jobs.Twisted].Metal = catalog.None
	st.Pieces[jobs.Twisted].Quotes = []catalog.Quote{{ID: "q", Plater: jobs.North, Level: "show", Cost: 99_00}}
	wantOut(t, st, jobs.Twisted, jobs.North, `quote "q" gives no grade`)
}

// Of what a quote takes over nothing rests on a starting value any more.
func TestQuoteRests(t *testing.T) {
	st := jobs.Tiny()
	st.Pieces[jobs.Twisted].Quotes = []catalog.Quote{{Plater: jobs.North, Level: "show", Cost: 99_00,
		Breakage: jobs.Given(catalog.Micro(1)), Refused: jobs.Given(catalog.Micro(0))}}
	all := Choices(st)[jobs.Left]
	c := jobs.Pick(all, jobs.Twisted, catalog.WorkRepair, jobs.North, "show")
	if want := []plan.Assumption{"highest grade after straighten"}; !slices.Equal(c.Assumptions, want) {
		t.Errorf("rests %q, want %q", c.Assumptions, want)
	}
	st.Pieces[jobs.Twisted].Quotes = nil
	c = jobs.Pick(Choices(st)[jobs.Left], jobs.Twisted, catalog.WorkRepair, jobs.North, "show")
	want := []plan.Assumption{"hours of straighten", "breakage of plating steel", "breakage of straighten in steel",
		"refusals for bent in steel", "highest grade after straighten"}
	if !slices.Equal(c.Assumptions, want) {
		t.Errorf("estimate: rests %q, want %q", c.Assumptions, want)
	}
}

// TestGuessedBreakage: a chance of breaking is a guess where a starting value stands behind it,
// and none where only other figures are.
func TestGuessedBreakage(t *testing.T) {
	for want, rests := range map[bool][]plan.Assumption{
		true:  {"the shop's hourly rate", "breakage of clean in pot metal"},
		false: {"hours of straighten", "the shop's hourly rate"},
	} {
		if got := GuessedBreakage(&plan.Choice{Assumptions: rests}); got != want {
			t.Errorf("%q: %v", rests, got)
		}
	}
}
