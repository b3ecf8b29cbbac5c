package model_test

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/model"
	"brightset/solver"
)

// Facts of the trade: common practice, no published source. Each is a small job
// in testdata/trade, decided through findings and tables, and a change of it
// that turns the decision round.

// edit is a change to a job: every old text is replaced; it must occur.
type edit struct{ old, new string }

type fact struct {
	job   string
	edits []edit
	want  map[string]string // per slot: piece, work, plater, level / fallback piece
	trade bool
}

var facts = map[string]fact{
	// Nickel showing never polishes out, and however small the spot, the piece
	// is out where the finish has to last.
	"nickel showing rules a piece out": {job: "nickel", want: map[string]string{"bar": "new as-is"}},
	"unless nothing lasting is asked":  {job: "nickel", edits: []edit{{"lasting = true", "lasting = false"}}, want: map[string]string{"bar": "worn as-is"}},

	// A lightly scratched original stays as it is when money rules.
	"light scratches stay":        {job: "scratched", want: map[string]string{"bar": "scratched as-is"}},
	"light scratches at a show":   {job: "scratched", edits: []edit{{`"driver"`, `"show"`}}, want: map[string]string{"bar": "scratched replate oxley show / new"}},
	"deep scratches are not nice": {job: "scratched", edits: []edit{{`"driver"`, `"nice"`}, {`"light"`, `"severe"`}}, want: map[string]string{"bar": "new as-is"}},
	"scratches polish for a bit":  {job: "scratched", edits: []edit{{"target = \"driver\"\n", "[target]\nfloor = 92\n"}}, want: map[string]string{"bar": "scratched clean / new"}},
	"old stock is used for nice":  {job: "old-stock", want: map[string]string{"lid": "shelf as-is"}},
	"old stock that will be sold": {job: "old-stock", edits: []edit{{"# value", "value"}}, want: map[string]string{"lid": "off-car replate oxley driver / shelf"}},
	"old stock is refinished":     {job: "old-stock", edits: []edit{{`"nice"`, `"concours"`}}, want: map[string]string{"lid": "shelf replate dene show / off-car"}},
	"but not if it will be sold":  {job: "old-stock", edits: []edit{{`"nice"`, `"concours"`}, {"# value", "value"}}, want: map[string]string{"lid": "off-car replate dene show / shelf"}},

	// New screws are bought, not plated, and count as freshly finished: the
	// least charge per piece decides.
	"screws are bought":        {job: "screws", want: map[string]string{"screws": "new as-is"}},
	"unless they are precious": {job: "screws", edits: []edit{{`"0.70"`, `"40.00"`}}, want: map[string]string{"screws": "old replate oxley show"}},

	// A straight, blistered casting beats the twisted one, which goes in trade;
	// brass untwists.
	"straight beats twisted":          {job: "twisted", want: map[string]string{"grille": "drawer replate oxley driver"}, trade: true},
	"straight at seven times as much": {job: "twisted", edits: []edit{{`"35.00"`, `"245.00"`}}, want: map[string]string{"grille": "drawer replate oxley driver"}, trade: true},
	"brass can be untwisted":          {job: "twisted", edits: []edit{{`"35.00"`, `"245.00"`}, {`"pot metal"`, `"brass"`}}, want: map[string]string{"grille": "twisted repair-replate dene show / drawer"}},
	"a dear drawer is no help":        {job: "twisted", edits: []edit{{`"35.00"`, `"390.00"`}, {`"15.00"`, `"0.00"`}}, want: map[string]string{"grille": "twisted repair-replate dene show / drawer"}},

	// A missing post beats a big dent with a wrong post and sanded sides.
	"a post is soon made":         {job: "post", want: map[string]string{"badge": "no-post repair-replate dene show / dented"}},
	"a small dent is passed over": {job: "post", edits: []edit{{`"severe"`, `"light"`}, {"defect = \"wrong post\"\ncount = 1", "defect = \"haze\""}, {`"thinned"`, `"haze"`}}, want: map[string]string{"badge": "dented clean / no-post"}},
	"badly sanded is not plated":  {job: "thinned", want: map[string]string{"spear": "new as-is"}},
	"slightly sanded may be":      {job: "thinned", edits: []edit{{`"severe"`, `"light"`}}, want: map[string]string{"spear": "sanded replate oxley driver / new"}},

	// An eaten hole is repaired only if nothing better comes, and what is worth
	// waiting for is waited for.
	"a lead is waited for":     {job: "lead", want: map[string]string{"crest": "friend as-is / eaten"}},
	"not beyond the date":      {job: "lead", edits: []edit{{"within_days = 120", "within_days = 95"}, {`"500.00"`, `"900.00"`}}, want: map[string]string{"crest": "eaten repair-replate dene show"}},
	"not at any price":         {job: "lead", edits: []edit{{`"45.00"`, `"245.00"`}}, want: map[string]string{"crest": "eaten repair-replate dene show / friend"}},
	"haze polishes out":        {job: "haze", want: map[string]string{"bezel": "hazy clean"}},
	"heavy haze does not":      {job: "haze", edits: []edit{{`"moderate"`, `"severe"`}}, want: map[string]string{"bezel": "hazy replate dene show"}},
	"a pair is not mixed":      {job: "pair", want: map[string]string{"left": "new as-is", "right": "new as-is"}},
	"apart they may be":        {job: "pair", edits: []edit{{"tone_within = 2.0", "tone_within = 9.0"}}, want: map[string]string{"left": "old-left as-is", "right": "new as-is"}},
	"one lot for the minimum":  {job: "one-lot", want: map[string]string{"hoop": "hoop repair-replate ashby driver", "cap": "cap replate ashby driver"}},
	"two lots without":         {job: "one-lot", edits: []edit{{`minimum = "150.00"`, `minimum = "0.00"`}}, want: map[string]string{"hoop": "hoop repair-replate ashby driver", "cap": "cap replate corley driver"}},
	"castings to the careful":  {job: "specialist", want: map[string]string{"handle": "handle repair-replate dene show"}},
	"brass to the cheap":       {job: "specialist", edits: []edit{{`"pot metal"`, `"brass"`}}, want: map[string]string{"handle": "handle repair-replate oxley driver"}},
	"the only one: carefully":  {job: "irreplaceable", want: map[string]string{"mascot": "mascot replate dene show"}},
	"another would be cheaper": {job: "irreplaceable", edits: []edit{{"max_breakage = 0.02\n", ""}, {"0.7 dm2", "3 dm2"}}, want: map[string]string{"mascot": "mascot replate oxley driver"}},
	"a box for two":            {job: "bundle", want: map[string]string{"left": "box-left as-is", "right": "box-right as-is"}},
	"no box for one":           {job: "bundle", edits: []edit{{"[piece.box-right]\nfits = [\"right\"]", "[piece.box-right]\nfits = [\"left\"]"}}, want: map[string]string{"left": "new-left as-is", "right": "new-right as-is"}},
	"crisp letters are dearer": {job: "lettering", want: map[string]string{"script": "crisp replate oxley show / worn"}},
	"one letter is recut":      {job: "lettering", edits: []edit{{"count = 6", "count = 1"}, {`"60.00"`, `"160.00"`}}, want: map[string]string{"script": "worn repair-replate oxley show / crisp"}},
}

func TestFactsOfTheTrade(t *testing.T) {
	for name, f := range facts {
		t.Run(strings.ReplaceAll(name, " ", "-"), func(t *testing.T) {
			st := f.load(t)
			plan, err := model.Solve(context.Background(), st, solver.Settings{})
			if err != nil {
				t.Fatal(err)
			}
			if plan.Status != solver.Optimal {
				t.Fatalf("%v: %v", plan.Status, plan.Reasons)
			}
			for i := range plan.Lines {
				slot := st.Slots[plan.Lines[i].Slot].ID
				if got := wordsOf(st, &plan.Lines[i]); got != f.want[slot] {
					t.Errorf("%s: %q, want %q", slot, got, f.want[slot])
				}
			}
			traded := false
			for _, c := range plan.Charges {
				traded = traded || c.Kind == model.ChargeTrade
			}
			if traded != f.trade {
				t.Errorf("traded: %v, want %v", traded, f.trade)
			}
		})
	}
}

// load reads the job with its edits made.
func (f *fact) load(t *testing.T) *catalog.State {
	t.Helper()
	from := filepath.Join("..", "testdata", "trade")
	text, err := os.ReadFile(filepath.Join(from, f.job, "job.toml"))
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range f.edits {
		if !strings.Contains(string(text), e.old) {
			t.Fatalf("%q does not occur in %s", e.old, f.job)
		}
		text = []byte(strings.ReplaceAll(string(text), e.old, e.new))
	}
	shop, err := os.ReadFile(filepath.Join(from, "shop.toml"))
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	text = []byte(strings.ReplaceAll(string(text), "../shop.toml", "shop.toml"))
	for name, data := range map[string][]byte{"job.toml": text, "shop.toml": shop} {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	st, err := catalog.Load(filepath.Join(dir, "job.toml"), catalog.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// wordsOf is a line as "piece work plater level / fallback piece".
func wordsOf(st *catalog.State, l *model.Line) string {
	c := l.Choice
	s := st.PieceLabel(c.Piece) + " " + c.Work
	if c.Plated() {
		s += " " + st.Platers[c.Plater].ID + " " + c.Level
	}
	if l.Fallback != nil {
		s += " / " + st.PieceLabel(l.Fallback.Piece)
	}
	return s
}
