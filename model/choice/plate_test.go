package choice

import (
	"slices"
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
)

// twisted at north, show: 3.2 x 25.00 = 80.00; straighten 0.5 + 2 x 0.25 + 0.25 x
// 3.2 x 0.5 = 1.4 hours at 60.00 = 84.00. Breakage 1.2 x (1 - 0.99 x 0.95) =
// 0.0714, refused 0.5 x 0.1 = 0.05, grade min(95, 90).
func TestEstimate(t *testing.T) {
	st := jobs.Tiny()
	c := jobs.Pick(Choices(st)[jobs.Left], jobs.Twisted, catalog.WorkRepair, jobs.North, "show")
	if c == nil {
		t.Fatal("no choice")
	}
	if c.Plate != 164_00 || c.Other != 0 || c.Strip != 8_00 || c.Breakage != 71_400 || c.Refused != 50_000 ||
		c.Grade != 90_00 || c.Tone != -25 || !c.Fresh || c.Growing || c.Days != 40 {
		t.Errorf("got %+v", c)
	}
	// driver: 3.2 x 10.00 is below the least per piece, 50.00
	if c := jobs.Pick(Choices(st)[jobs.Left], jobs.Twisted, catalog.WorkRepair, jobs.North,
		"driver"); c.Plate != 134_00 || c.Grade != 75_00 {
		t.Errorf("driver: %+v", c)
	}
}

// Severe bending also needs posts, which only makers do: the cheaper one, smith,
// 1 hour at 70.00, 9 days. fill is the shop's.
func TestWhoDoesIt(t *testing.T) {
	st := jobs.Tiny()
	st.Pieces[jobs.Twisted].Findings = []catalog.Finding{
		{Defect: jobs.Bent, Severity: catalog.Severe, Extent: 0, Count: 1, Where: catalog.Face},
		{Defect: jobs.Pits, Severity: catalog.Moderate, Extent: 0, Count: 3, Where: catalog.Back}}
	c := jobs.Pick(Choices(st)[jobs.Left], jobs.Twisted, catalog.WorkRepair, jobs.North, "show")
	// north: 80.00 + 0.75 hours at 60.00; shop: 0.6 hours at 40.00; smith 70.00
	if c == nil || c.Plate != 125_00 || c.Before != 94_00 || c.Other != 0 || c.Days != 49 || len(c.Parts) != 4 {
		t.Fatalf("got %+v", c)
	}
	st.Makers = nil
	if jobs.Pick(Choices(st)[jobs.Left], jobs.Twisted, catalog.WorkRepair, jobs.North, "show") != nil {
		t.Error("nobody does posts, yet there is a choice")
	}
	wantOut(t, st, jobs.Twisted, jobs.North, "nobody does posts")
}

// The parts of a choice are in the order in which they are done: works up to the order of
// plating, plating itself, works above it, and fitting by the shop last.
func TestPartsInOrder(t *testing.T) {
	st := jobs.Tiny()
	st.Pieces[jobs.Twisted].Findings = []catalog.Finding{
		{Defect: jobs.Bent, Severity: catalog.Severe, Extent: 0, Count: 1, Where: catalog.Face},
		{Defect: jobs.Pits, Severity: catalog.Moderate, Extent: 0, Count: 3, Where: catalog.Back}}
	order := func() (works []int) {
		for _, p := range jobs.Pick(Choices(st)[jobs.Left], jobs.Twisted, catalog.WorkRepair, jobs.North, "show").Parts {
			works = append(works, p.Work)
		}
		return works
	}
	if got, want := order(), []int{1, 2, 3, catalog.None}; !slices.Equal(got, want) {
		t.Errorf("no order given: works %v, want %v", got, want)
	}
	st.Tables.Works[2].Order = jobs.Set(catalog.PlatingOrder)
	st.Tables.Works[3].Order = jobs.Set(catalog.PlatingOrder + 1)
	if got, want := order(), []int{1, 2, catalog.None, 3}; !slices.Equal(got, want) {
		t.Errorf("posts after plating: works %v, want %v", got, want)
	}
}

// TestPriceByThePiece, by hand: at show north asks 55.00 for a rim in steel, whatever its area
// and his least charge of 50.00; straightening is 84.00 on top. For twisted itself he asks
// 12.00. Without rates the price alone will do, and without an area too, but for
// what goes by it.
func TestPriceByThePiece(t *testing.T) {
	price := func(of string, cost catalog.Cents) catalog.Price {
		p := catalog.Price{Of: of, Cost: make([]catalog.Val[catalog.Cents], 2)}
		p.Cost[jobs.Steel] = jobs.Given(cost)
		return p
	}
	st := jobs.Tiny()
	show := &st.Platers[jobs.North].Levels[jobs.Show]
	pick := func(piece int, work string) *plan.Choice {
		return jobs.Pick(Choices(st)[jobs.Left], piece, work, jobs.North, "show")
	}
	show.Prices = []catalog.Price{price("rim", 55_00)}
	if c := pick(jobs.Bare, catalog.WorkReplate); c == nil || c.Plate != 55_00 {
		t.Errorf("a rim: %+v", c)
	}
	if c := pick(jobs.Twisted, catalog.WorkRepair); c == nil || c.Plate != 139_00 {
		t.Errorf("a twisted rim: %+v", c)
	}
	show.Prices = append(show.Prices, price("twisted", 12_00))
	if c := pick(jobs.Twisted, catalog.WorkRepair); c == nil || c.Plate != 96_00 {
		t.Errorf("that one: %+v", c)
	}
	show.Rate[jobs.Steel].Set, st.Slots[jobs.Left].Area.Set = false, false
	if c := pick(jobs.Bare, catalog.WorkReplate); c == nil || c.Plate != 55_00 {
		t.Errorf("no rate and no area: %+v", c)
	}
	if c := pick(jobs.Twisted, catalog.WorkRepair); c != nil {
		t.Errorf("nobody knows how long straightening takes: %+v", c)
	}
	wantOut(t, st, jobs.Twisted, jobs.North, "straighten goes by it")
}

// TestWorksDone, by hand: severe bending asks for straightening (north) and a post (smith).
// With the post made: nothing before, no days of his. With both done: 80.00 for the plating,
// 1.2 x 0.01 = 0.012 of breaking; it looks no better than straightened, 90, and is still a
// repair. With a second bend that is not straightened yet, that one alone is paid for:
// 0.5 + 2 x 0.25 + 0.25 x 3.2 x 0.5 = 1.4 hours at 60.00.
func TestWorksDone(t *testing.T) {
	severe := catalog.Finding{ID: "a", Defect: jobs.Bent, Severity: catalog.Severe, Count: 1, Where: catalog.Face}
	again := catalog.Finding{ID: "b", Defect: jobs.Bent, Severity: catalog.Moderate, Extent: 250_000, Count: 2,
		Where: catalog.Face}
	const straighten, posts = 1, 3
	for _, c := range []struct {
		done          []int
		more          []catalog.Finding
		plate, before catalog.Cents
		breakage      catalog.Micro
		days          int
	}{
		{nil, nil, 125_00, 70_00, 71_400, 49},
		{[]int{posts}, nil, 125_00, 0, 71_400, 40},
		{[]int{straighten, posts}, nil, 80_00, 0, 12_000, 40},
		{[]int{straighten, posts}, []catalog.Finding{again}, 164_00, 0, 71_400, 40},
	} {
		st := jobs.Tiny()
		f := severe
		f.Done = c.done
		st.Pieces[jobs.Twisted].Findings = append([]catalog.Finding{f}, c.more...)
		k := jobs.Pick(Choices(st)[jobs.Left], jobs.Twisted, catalog.WorkRepair, jobs.North, "show")
		if k == nil || k.Plate != c.plate || k.Before != c.before || k.Breakage != c.breakage || k.Days != c.days ||
			k.Grade != 90_00 {
			t.Errorf("done %v: %+v", c.done, k)
		}
	}
}

func TestNoEstimate(t *testing.T) {
	tests := []struct {
		name   string
		change func(st *catalog.State)
		plater int
		why    string
	}{
		{"refused defect", func(*catalog.State) {}, jobs.South, "south refuses bent"},
		{"beyond repair", func(st *catalog.State) {
			st.Pieces[jobs.Twisted].Findings[0] = catalog.Finding{Defect: jobs.Pits, Severity: catalog.Severe}
		}, jobs.North, "severe pits is beyond repair"},
		{"metal", func(st *catalog.State) { st.Pieces[jobs.Twisted].Metal = catalog.None }, jobs.North,
			"its metal is unknown"},
		{"area", func(st *catalog.State) { st.Slots[jobs.Left].Area.Set = false }, jobs.North, "has no area"},
		{"rate", func(st *catalog.State) { st.Platers[jobs.North].Levels[jobs.Show].Rate[jobs.Steel].Set = false },
			jobs.North, "no rate for steel in show finish"},
		{"grade", func(st *catalog.State) { st.Platers[jobs.North].Levels[jobs.Show].Grade[jobs.Steel].Set = false },
			jobs.North, "no grade for steel in show finish"},
		{"base", func(st *catalog.State) { st.Tables.Metals[jobs.Steel].Base.Set = false }, jobs.North,
			"no breakage is known for steel"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			st := jobs.Tiny()
			tt.change(st)
			if c := jobs.Pick(Choices(st)[jobs.Left], jobs.Twisted, workWord(st, jobs.Twisted), tt.plater,
				"show"); c != nil {
				t.Errorf("there is a choice: %+v", c)
			}
			wantOut(t, st, jobs.Twisted, tt.plater, tt.why)
		})
	}
}

func wantOut(t *testing.T, st *catalog.State, piece, plater int, why string) {
	t.Helper()
	for _, o := range slices.Concat(Exclusions(st)...) {
		if o.Piece == piece && o.Plater == plater && strings.Contains(o.Why, why) {
			return
		}
	}
	t.Errorf("no reason %q among %+v", why, Exclusions(st))
}

func TestTooFew(t *testing.T) {
	st := jobs.Tiny()
	st.Slots[jobs.Left].Quantity = 2
	if got := Choices(st)[jobs.Left]; len(got) != 0 {
		t.Errorf("choices with too few pieces: %+v", got)
	}
	wantOut(t, st, jobs.Bare, catalog.None, "there is only one, the slot needs 2")
}

func TestOrder(t *testing.T) {
	st := jobs.Tiny()
	st.Pieces[jobs.Hazy].Quotes = []catalog.Quote{{ID: "n", Plater: jobs.North, Level: "show", Cost: 1_00}}
	var got []string
	for _, c := range Choices(st)[jobs.Left] {
		if c.Piece == jobs.Hazy {
			got = append(got, plan.Label(st, &c))
		}
	}
	want := "hazy as-is, hazy clean, hazy replate north show quote n, hazy replate south driver, hazy replate south " +
		"show"
	if strings.Join(got, ", ") != want {
		t.Errorf("got  %s\nwant %s", strings.Join(got, ", "), want)
	}
}
