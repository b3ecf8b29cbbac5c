package record

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"testing"

	"brightset/catalog"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// TestRecordedQuoteStays: what the owner is quoted is the same, to the cent, when what was planned
// has been done as planned, whether it was bought, worked on by the shop, by a maker or by a plater.
func TestRecordedQuoteStays(t *testing.T) {
	const shop = "[shop]\nhourly = \"40.00\"\nworks = [\"straighten\"]\n"
	const head = `[job]
title = "t"
shop = "shop.toml"
[target]
floor = 80
[quote]
plating = 0.3
parts = 0.1
hourly = "50.00"
packing = 0.5
[vendor.v]
freight = "12.00"
[maker.m]
hourly = "60.00"
works = ["new post"]
[plater.p]
freight = "10.00"
minimum = "60.00"
days = 30
works = ["level surface"]
[plater.p.level.show]
rate = { steel = "20.00" }
grade = { steel = 90 }
[slot.a]
area = "1 dm2"
[piece.x]
fits = ["a"]
kind = "original"
metal = "steel"
`
	for name, c := range map[string]struct {
		more  string
		steps []step
	}{
		"bought": {"owner = \"v\"\nprice = \"80.00\"\ngrade = 85\n",
			[]step{{"bought", Facts{Target: "x", Freight: "12.00"}}, {"hung", Facts{Target: "x"}}}},
		"plated": {"[piece.x.finding.a]\ndefect = \"bend\"\n[piece.x.finding.b]\ndefect = \"missing post\"\n",
			[]step{{"sent", Facts{Target: "x", To: "p", Cost: "20.00"}}, {"plated", Facts{Target: "x"}},
				{"back", Facts{Target: "x"}}, {"hung", Facts{Target: "x"}}}},
		"fitted by hand": {"grade = 85\n[piece.x.fit.a]\nhours = 1.5\n", []step{{"hung", Facts{Target: "x"}}}},
	} {
		dir := t.TempDir()
		path := filepath.Join(dir, "job.toml")
		if err := errors.Join(os.WriteFile(path, []byte(head+c.more), 0o600),
			os.WriteFile(filepath.Join(dir, "shop.toml"), []byte(shop), 0o600)); err != nil {
			t.Fatal(err)
		}
		planned := quoted(t, recorderAt(t, path).State)
		if planned.Net <= 0 {
			t.Fatalf("%s: nothing is planned", name)
		}
		for _, s := range c.steps {
			if err := do(t, recorderAt(t, path), s.name, s.facts); err != nil {
				t.Fatalf("%s: %s: %v", name, s.name, err)
			}
			if now := quoted(t, recorderAt(t, path).State); now.Net != planned.Net {
				t.Errorf("%s: %s: the quote is %d now and was %d", name, s.name, now.Net, planned.Net)
			}
		}
	}
}

func quoted(t *testing.T, st *catalog.State) plan.OwnerSums {
	t.Helper()
	pl, err := program.Solve(context.Background(), st, solver.Settings{})
	if err != nil || !pl.Has {
		t.Fatal(err, "no plan")
	}
	return pl.ForOwner()
}
