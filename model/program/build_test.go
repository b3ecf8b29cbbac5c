package program

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/solver"
)

// column finds the column of a slot by its name.
func column(t *testing.T, p *Program, slot int, name string) solver.Column {
	t.Helper()
	for _, c := range p.Problem.Groups[slot].Columns {
		if c.Name == name {
			return c
		}
	}
	t.Fatalf("slot %d has no column %q", slot, name)
	return solver.Column{}
}

// words writes terms by the names of rows, and needs by the names of switches.
func words(p *Program, c solver.Column) string {
	var s []string
	for _, term := range c.Terms {
		s = append(s, fmt.Sprintf("%s %+d", p.Problem.Rows[term.Row].Name, term.Coef))
	}
	for _, n := range c.Needs {
		s = append(s, p.Problem.Switches[n].Name)
	}
	for _, l := range c.Loads {
		s = append(s, fmt.Sprintf("load %s %d", p.Problem.Switches[l.Switch].Name, l.Amount))
	}
	return strings.Join(s, ", ")
}

func TestColumns(t *testing.T) {
	p := BuildAll(jobs.BusyState())
	for _, tt := range []struct{ name, want string }{
		// weight 3 x 88.00; -1e6 ln(1 - 0) is nothing; cash 100.00
		{"sold as-is", "mean +2640000, budget +10000, piece job:sold +1, taken job:sold -1, vendor attic"},
		{"bagged as-is", "mean +2400000, piece job:bagged +1, bundle crate"},
		// south: 80.00, breaks 0.01, as k; other is given in the trade
		{"bare replate south show / other as-is", "mean +2850000, budget +8000, piece job:bare +1, piece job:other " +
			"+1, given job:other +1, plater south, load plater south 8000"},
		// in reserve, sold neither gets the trade nor owes the vendor's freight
		{"bare replate south show / sold as-is",
			"mean +2850000, budget +8000, piece job:bare +1, piece job:sold +1, plater south, load plater south 8000"},
		// but a bundle is bought as a whole
		{"bare replate south show / bagged as-is", "mean +2850000, budget +8000, piece job:bare +1, piece job:bagged " +
			"+1, plater south, bundle crate, load plater south 8000"},
		// -1e6 ln(1 - 0.01) = 10050.3
		{"bare replate south show",
			"mean +2850000, completion +10050, budget +8000, piece job:bare +1, plater south, load plater south 8000"},
	} {
		got := words(p, column(t, p, jobs.Left, tt.name))
		if got != tt.want {
			t.Errorf("%s:\ngot  %s\nwant %s", tt.name, got, tt.want)
		}
	}
	// lonely can be used in one slot only: no row, so only its grade, 60.00 x 1
	if got := words(p, column(t, p, jobs.Right, "lonely as-is")); got != "mean +600000" {
		t.Errorf("lonely: %s", got)
	}
}

func TestRowsAndSwitches(t *testing.T) {
	st := jobs.BusyState()
	p := BuildAll(st)
	rows := p.Problem.Rows
	for i, limit := range []int64{-NoLimit, NoLimit, NoLimit} {
		if rows[i].Limit != limit {
			t.Errorf("row %s without a rule has limit %d", rows[i].Name, rows[i].Limit)
		}
	}
	st.Job.Target.Mean, st.Job.Completion, st.Job.Budget = jobs.Given(catalog.Centi(80_00)),
		jobs.Given(catalog.Micro(900_000)), jobs.Given(catalog.Cents(500_00))
	rows = BuildAll(st).Problem.Rows
	for i, limit := range []int64{80_00 * 400, 105_362, 500_00} {
		if rows[i].Limit != limit {
			t.Errorf("row %s: limit %d, want %d", rows[i].Name, rows[i].Limit, limit)
		}
	}
	if !rows[RowBudget].Charges || rows[RowMean].Sense != solver.AtLeast {
		t.Error("the budget counts charges, and the mean is at least")
	}
	sw := p.Problem.Switches
	if n := p.PlaterSwitch(jobs.North); sw[n].Fixed != 30_00 || sw[n].Minimum != 20_00 || sw[n].Tag != TagLot("north") {
		t.Errorf("north: %+v", sw[n])
	}
	if b := p.BundleSwitch(0); sw[b].Fixed != 60_00 || !slices.Equal(sw[b].Needs, []int{p.VendorSwitch(0)}) {
		t.Errorf("crate: %+v", sw[b])
	}
	y := sw[p.TradeSwitch(0)]
	if y.Fixed != -30_00 || !y.Voluntary || len(y.Terms) != 2 || y.Tag != TagTrade("swap") {
		t.Errorf("swap: %+v", y)
	}
}

// Two trades that give the same piece, and two that take the same.
func TestTradesOnce(t *testing.T) {
	st := jobs.BusyState()
	st.Trades = append(st.Trades, catalog.Trade{ID: "again", Give: jobs.Other, Get: jobs.Bagged},
		catalog.Trade{ID: "third", Give: jobs.Hazy, Get: jobs.Sold})
	st.Pieces[jobs.Bagged].Quantity = 2
	p := BuildAll(st)
	got := map[string]int{}
	for t := range st.Trades {
		for _, term := range p.Problem.Switches[p.TradeSwitch(t)].Terms {
			got[p.Problem.Rows[term.Row].Name]++
		}
	}
	want := map[string]int{"given job:other": 2, "taken job:sold": 2, "given job:hazy": 1, "taken job:bagged": 1,
		"taken once job:bagged": 1}
	if !maps.Equal(got, want) {
		t.Errorf("got %v", got)
	}
}

// A piece given that there is one of is out of all slots together; of several alike one
// may hang in each slot.
func TestTradeGives(t *testing.T) {
	for _, tt := range []struct {
		quantity int
		want     []string
	}{
		{1, []string{"given job:other"}},
		{2, []string{"given job:other rim-left", "given job:other rim-right"}},
	} {
		st := jobs.BusyState()
		st.Pieces[jobs.Other].Quantity = tt.quantity
		p := BuildAll(st)
		var got []string
		for _, r := range p.Problem.Rows {
			if strings.HasPrefix(r.Name, "given ") {
				got = append(got, r.Name)
			}
		}
		if !slices.Equal(got, tt.want) {
			t.Errorf("%d of it: rows %q, want %q", tt.quantity, got, tt.want)
		}
	}
}

func TestMatchConstraints(t *testing.T) {
	p := BuildAll(jobs.BusyState())
	if len(p.Problem.WithinTolerance) != 2 || len(p.Problem.AllEqual) != 2 {
		t.Fatalf("%d near, %d same", len(p.Problem.WithinTolerance), len(p.Problem.AllEqual))
	}
	n, s := p.Problem.WithinTolerance[0], p.Problem.AllEqual[0]
	if !slices.Equal(n.Groups, []int{jobs.Left, jobs.Right}) || n.Tolerance != 5_00 || n.Tag != TagMatch("rims") {
		t.Errorf("near: %+v", n.Groups)
	}
	for i, c := range p.Problem.Groups[jobs.Right].Columns {
		if c.Name == "sold as-is" && (n.Values[1][i] != 88_00 || s.Labels[1][i] != -1 ||
			p.Problem.AllEqual[1].Labels[1][i] != 0) {
			t.Errorf("sold: grade %d, plater %d", n.Values[1][i], s.Labels[1][i])
		}
		if c.Name == "bare replate south show" && (p.Problem.WithinTolerance[1].Values[1][i] != -25 ||
			s.Labels[1][i] != jobs.South || p.Problem.AllEqual[1].Labels[1][i] != 1) {
			t.Errorf("bare: tone %d, plater %d", p.Problem.WithinTolerance[1].Values[1][i], s.Labels[1][i])
		}
	}
}

func TestBestCosts(t *testing.T) {
	p := Compile(jobs.BusyState(), Options{Best: true, AllLines: true})
	if c := column(t, p, jobs.Left, "sold as-is"); c.Cost != -300*88_00 || !p.Problem.Uncharged {
		t.Errorf("cost %d", c.Cost)
	}
	for s, g := range p.Costed() {
		for i, c := range g.Columns {
			if c.Cost != int64(p.Pairs[s][i].Weighed()) || p.Problem.Groups[s].Columns[i].Cost > 0 {
				t.Fatalf("column %q costs %d in the second stage", c.Name, c.Cost)
			}
		}
	}
}

// On expected, the budget counts what a line costs on average: 80.00 + 0.01 x
// 450.00.
func TestBudgetOnExpected(t *testing.T) {
	st := jobs.BusyState()
	st.Job.BudgetOn = catalog.OnExpected
	p := BuildAll(st)
	if got := words(p, column(t, p, jobs.Left, "bare replate south show")); !strings.Contains(got, "budget +8450,") {
		t.Errorf("got %s", got)
	}
}
