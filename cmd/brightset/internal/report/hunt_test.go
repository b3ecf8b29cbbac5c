package report

import (
	"fmt"
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/model/ask"
)

// TestTourWords: text, page and document give the sums of a tour that are known, and no others.
func TestTourWords(t *testing.T) {
	end := catalog.Cents(catalog.MaxSum)
	const order = "in this order, since nothing meets the target as things stand"
	for _, c := range []struct {
		find      ask.Find
		how, sums string
	}{
		{ask.Find{Worth: 200_00, Most: 200_00},
			"in this order; worth up to 200.00, and with tries and piece 115.00 on average",
			`"worth_cents":20000,"expected_cents":11500`},
		{ask.Find{Worth: 150_00, Most: 200_00, Stopped: true},
			"in this order, others perhaps as well; worth 150.00 to 200.00",
			`"worth_cents":15000,"expected_cents":null`},
		{ask.Find{Worth: 60_00, Most: 60_00, Rescues: true}, order + "; worth up to 60.00",
			`"worth_cents":6000,"expected_cents":null`},
		{ask.Find{Worth: end, Most: end, Rescues: true}, order, `"worth_cents":null,"expected_cents":null`},
	} {
		h := handHunt()
		h.Plan.Has, h.Plan.Of.Tables.Metals = !c.find.Rescues, []catalog.Metal{{Name: "steel"}}
		h.Plan.Of.Avenues = []catalog.Avenue{{ID: "meet", Slot: 2, Kind: catalog.Original, Cost: 5_00,
			Chance: catalog.One / 2, Low: 20_00, Likely: 20_00, High: 20_00}}
		c.find.Slot, c.find.Choice, c.find.Profile = 2, h.Finds[4].Choice, ask.Profile{Name: "orig", Kind: catalog.Original}
		h.Finds = []ask.Find{c.find}
		flat := strings.Join(strings.Fields(Hunt(h)), " ")
		if want := "Where to look for badge (orig), " + c.how + ": "; !strings.Contains(flat, want) {
			t.Errorf("text without %q:\n%s", want, flat)
		}
		if page := fmt.Sprint(HuntBlocks(h)); !strings.Contains(page, "Try "+c.how+".") {
			t.Errorf("page without %q: %s", c.how, page)
		}
		doc, err := HuntJSON(h)
		if flat = strings.Join(strings.Fields(doc), ""); err != nil || !strings.Contains(flat, c.sums) {
			t.Errorf("document without %s: %v\n%s", c.sums, err, doc)
		}
		for _, said := range []string{Hunt(h), fmt.Sprint(tourTicks(h), HuntBlocks(h)), doc} {
			if strings.Contains(said, "90071992547409") {
				t.Errorf("a sum without an end: %s", said)
			}
		}
	}
}
