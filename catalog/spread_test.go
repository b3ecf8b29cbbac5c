package catalog

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// loadWithShop loads the smallest job beside a shop's file.
func loadWithShop(t *testing.T, shop string) (*State, error) {
	t.Helper()
	dir := t.TempDir()
	job := "[job]\ntitle = \"t\"\nshop = \"shop.toml\"\n"
	for name, text := range map[string]string{"job.toml": job, "shop.toml": shop} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return Load(filepath.Join(dir, "job.toml"), Options{})
}

// TestSpreadOfGuesses: 10 in 100 below and 35 above are starting values; a shop says
// otherwise, each by itself.
func TestSpreadOfGuesses(t *testing.T) {
	st, err := loadWithShop(t, "[shop]\nspread_high = 0.5\n")
	if err != nil {
		t.Fatal(err)
	}
	low, high := st.Tables.Spread.Low, st.Tables.Spread.High
	if low.V != 100_000 || low.From.Source != StartingValue {
		t.Errorf("low %+v", low)
	}
	if high.V != 500_000 || high.From.Source == StartingValue {
		t.Errorf("high %+v", high)
	}
	if st, err = loadWithShop(t, "[shop]\n"); err != nil || st.Tables.Spread.High.V != 350_000 {
		t.Error(st, err)
	}
	for text, want := range map[string]string{"spread_low = 1.5": "from 0 to 1", "spread_high = -0.1": "from 0 to 5"} {
		if _, err := loadWithShop(t, "[shop]\n"+text+"\n"); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", text, err, want)
		}
	}
}

// TestSpreadOfAPlater: what was learnt of a plater comes before what the shop says of all, and
// what it says of him before either; a file that learn wrote reads as it was meant.
func TestSpreadOfAPlater(t *testing.T) {
	learnt := LearntFile("2031-01-02", "40 pieces", nil, []LearntPlater{
		{Factor: LearntValue{"north", 1_100_000, "3 of 40 broke"}, Low: LearntValue{Value: 40_000, Rests: "30 prices"},
			High: LearntValue{Value: 220_000, Rests: "30 prices"}},
		{Factor: LearntValue{"south", 900_000, "0 of 4 broke"}}})
	dir := t.TempDir()
	for name, text := range map[string]string{"learned.toml": learnt,
		"job.toml": "[job]\ntitle = \"x\"\nshop = \"shop.toml\"\n[slot.a]\n",
		"shop.toml": "include = [\"learned.toml\"]\n[shop]\nspread_high = 0.5\n[plater.north]\nspread_high = 0.3\n" +
			"tone_drift = 0.8\n[plater.south]\n"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	st, err := Load(filepath.Join(dir, "job.toml"), Options{})
	if err != nil {
		t.Fatal(err)
	}
	north, south := &st.Platers[0], &st.Platers[1]
	if north.Factor != 1_100_000 || north.Spread.Low.V != 40_000 || north.Spread.High.V != 300_000 || north.Drift != 80 {
		t.Errorf("%+v", north)
	}
	if south.Factor != 900_000 || south.Spread != (Spread{}) || south.Drift != 0 {
		t.Errorf("%+v", south)
	}
}
