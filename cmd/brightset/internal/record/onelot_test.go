package record

import (
	"os"
	"strings"
	"testing"

	"brightset/catalog"
)

// TestOneDayOneLot: what goes to one plater on one day is one lot, however it is recorded:
// one freight of 30.00, and what is missing to his least lot of 150.00 on all of it. Another
// day, or a lot said to be another, pays its own; an undo takes its part back.
func TestOneDayOneLot(t *testing.T) {
	dir := swift(t)
	shop := strings.Replace(laterShop, "[plater.north]", "[plater.north]\nfreight = \"30.00\"\nminimum = \"150.00\"", 1)
	for name, text := range map[string]string{"job.toml": laterJob, "shop.toml": shop} {
		if err := os.WriteFile(dir+"/"+name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	one := func(piece, cost string) step {
		return step{"sent", Facts{Target: piece, To: "north", Cost: cost}}
	}
	apart, later := one("priced", "70.00"), one("priced", "70.00")
	apart.facts.NewLot, later.facts.On = true, "2031-02-02"
	for _, c := range []struct {
		name  string
		steps []step
		spent []catalog.Cents // after each
	}{
		{"three by three", []step{one("eaten", "40.00"), one("sound", "60.00"), one("priced", "70.00")},
			// 30 + 40 + 110, then 30 + 100 + 50, then 30 + 170
			[]catalog.Cents{180_00, 180_00, 200_00}},
		{"together", []step{{"sent", Facts{Target: "eaten,sound", To: "north", Cost: "50.00"}}, one("priced", "70.00")},
			[]catalog.Cents{180_00, 200_00}},
		{"one apart", []step{one("eaten", "40.00"), one("sound", "60.00"), apart}, []catalog.Cents{180_00, 180_00, 360_00}},
		{"one the day after", []step{one("eaten", "40.00"), later}, []catalog.Cents{180_00, 360_00}},
		{"exactly the least", []step{one("eaten", "80.00"), one("sound", "70.00"), one("priced", "0.01")},
			[]catalog.Cents{180_00, 180_00, 180_01}},
	} {
		d := recorderAt(t, dir+"/job.toml")
		for i, s := range c.steps {
			must(t, d, s)
			if d.State.Job.SpentSum != c.spent[i] {
				t.Errorf("%s: after %d spent %d, want %d", c.name, i+1, d.State.Job.SpentSum, c.spent[i])
			}
		}
		for i := len(c.steps) - 1; i >= 0; i-- {
			st, _, err := d.Undo()
			want := catalog.Cents(0)
			if i > 0 {
				want = c.spent[i-1]
			}
			if err != nil || st.Job.SpentSum != want || len(st.Warnings) > 0 {
				t.Errorf("%s: undone to %d: spent %d, want %d (%v, %v)", c.name, i, st.Job.SpentSum, want, err, st.Warnings)
			}
		}
	}
}
