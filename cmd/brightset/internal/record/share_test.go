package record

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"brightset/catalog"
)

// TestSharesOfALot: of what a lot costs besides its work a job pays its share where the kept plan
// has one, and the whole where it has none: each by itself.
func TestSharesOfALot(t *testing.T) {
	freight := catalog.KeptShare{ID: "1", Kind: catalog.ShareFreight, Of: "north", Cents: 12_00}
	least := catalog.KeptShare{ID: "2", Kind: catalog.ShareLeast, Of: "north", Cents: 20_00}
	other := catalog.KeptShare{ID: "3", Kind: catalog.ShareFreight, Of: "south", Cents: 1_00}
	for _, c := range []struct {
		name   string
		shares []catalog.KeptShare
		want   catalog.Cents
	}{
		{"none", []catalog.KeptShare{other}, 30_00 + 75_00},
		{"both", []catalog.KeptShare{other, freight, least}, 12_00 + 20_00},
		{"freight", []catalog.KeptShare{freight}, 12_00 + 75_00},
		{"least lot", []catalog.KeptShare{least}, 30_00 + 20_00},
	} {
		dir := swift(t)
		shop := strings.Replace(laterShop, "days = 20", "days = 20\nfreight = \"30.00\"\nminimum = \"100.00\"", 1) +
			"[plater.south]\n"
		for name, text := range map[string]string{"job.toml": laterJob, "shop.toml": shop} {
			if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		path := filepath.Join(dir, "job.toml")
		keepShared(t, path, c.shares)
		d := recorderAt(t, path)
		must(t, d, step{"sent", Facts{Target: "priced", To: "north"}})
		if got := d.State.Job.SpentSum; got != c.want {
			t.Errorf("%s shared: %d is spent, want %d", c.name, got, c.want)
			for _, s := range d.State.Job.Spent {
				t.Log(s.For, s.Cents)
			}
		}
	}
}
