package record

import (
	"os"
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
)

// afterFindings is a bent piece with paint gone from two fields: a smith straightens it for
// 100.00, and breaks one in ten, before it goes to the plater for 40.00; when it is back
// somebody paints it in 0.4 + 2 x 0.2 = 0.8 h and spoils one in a hundred: the shop for
// 50.00 an hour, or else a painter for 100.00 within six days.
const afterFindings = `[piece.sound.finding.bent]
defect = "bend"
severity = "light"
[piece.sound.finding.paint]
defect = "missing fill"
count = 2
`

const shopPaints = "hourly = \"50.00\"\nworks = [\"renew fill\"]\n"

const afterShop = `[maker.smith]
hourly = "100.00"
works = ["straighten"]
days = 9
[work.straighten]
hours = 1
each = 0
per_dm2 = 0
breakage = { steel = 0.1 }
[work."renew fill"]
hours = 0.4
each = 0.2
breakage = 0.01
`

const painter = `[maker.painter]
hourly = "100.00"
works = ["renew fill"]
days = 6
`

func afterRecorder(t *testing.T, shop, more string) *catalog.Recorder {
	t.Helper()
	dir := swift(t)
	shop = strings.Replace(laterShop, "days = 20", "days = 20\nworks = [\"fill pits\"]", 1) + afterShop + shop
	if own, paints := strings.CutSuffix(shop, shopPaints); paints {
		shop = strings.Replace(own, "hourly = \"50.00\"\n", shopPaints, 1)
	}
	for name, text := range map[string]string{"job.toml": laterJob + more, "shop.toml": shop} {
		if err := os.WriteFile(dir+"/"+name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return recorderAt(t, dir+"/job.toml")
}

func pieceOf(t *testing.T, d *catalog.Recorder, id string) *catalog.Piece {
	t.Helper()
	i, ok := d.State.FindPiece(id)
	if !ok {
		t.Fatal("no piece", id)
	}
	return &d.State.Pieces[i]
}

// asItIs is how a piece would hang in the first slot as it is, nil where it can't.
func asItIs(t *testing.T, d *catalog.Recorder, id string) *plan.Choice {
	t.Helper()
	i, _ := d.State.FindPiece(id)
	for _, c := range choice.ChoicesFor(d.State, 0) {
		if c.Piece == i && c.Work == catalog.WorkAsIs {
			return &c
		}
	}
	return nil
}

// TestAfterPlating: what is done to the finished piece by others is neither done nor paid
// before the piece goes, is not forgotten while the plater has it or when it is back, and is
// spent when it hangs: in the end as much is spent as was planned.
func TestAfterPlating(t *testing.T) {
	for _, c := range []struct {
		name, shop    string
		paint, makers catalog.Cents
		days          int
	}{
		{"the shop", shopPaints, 40_00, 0, 0},
		{"a painter", painter, 80_00, 80_00, 6},
	} {
		d := afterRecorder(t, c.shop, afterFindings)
		k := platedChoice(t, d.State, "sound")
		if k == nil || k.Before != 100_00 || k.Other != c.paint || k.Makers != 100_00+c.makers || k.Plate != 40_00 ||
			k.Breakage != 109_000 || k.Days != 29+c.days {
			t.Fatalf("%s, before it goes: %+v", c.name, k)
		}
		planned := k.Cash
		must(t, d, step{"sent", Facts{Target: "sound", To: "north"}})
		if got := d.State.Job.SpentSum; got != 100_00 {
			t.Errorf("%s: spent when it goes: %d", c.name, got)
		}
		k = platedChoice(t, d.State, "sound")
		if k == nil || k.Before != 0 || k.Other != c.paint || k.Makers != c.makers || k.Breakage != 10_000 ||
			k.Days != 20+c.days {
			t.Fatalf("%s, at the plater's: %+v", c.name, k)
		}
		must(t, d, step{"approved", Facts{Target: "sound"}}, step{"back", Facts{Target: "sound", Grade: "96"}})
		found := pieceOf(t, d, "sound").Findings
		if len(found) != 1 || found[0].ID != "paint" {
			t.Errorf("%s: what is found when it is back: %+v", c.name, found)
		}
		k = asItIs(t, d, "sound")
		if k == nil || k.Other != c.paint || k.Makers != c.makers || k.Breakage != 10_000 || k.Days != c.days ||
			k.Grade != 96_00 {
			t.Fatalf("%s, back: %+v", c.name, k)
		}
		must(t, d, step{"hung", Facts{Target: "sound"}})
		if got := d.State.Job.SpentSum; got != planned || len(pieceOf(t, d, "sound").Findings) != 0 {
			t.Errorf("%s: spent %d of %d planned; found %+v", c.name, got, planned, pieceOf(t, d, "sound").Findings)
		}
		if k = asItIs(t, d, "sound"); k == nil || k.Cash != 0 || k.Breakage != 0 {
			t.Errorf("%s, hung: %+v", c.name, k)
		}
	}
}

// TestPlainReplateMendsNothing: a piece sent for plating alone comes back as bent as it went,
// and can't hang; what of its finish was found is gone. One that was mended hangs, and so does
// one of which somebody says that the bend is harmless.
func TestPlainReplateMendsNothing(t *testing.T) {
	quote := func(work string) string {
		return "[piece.sound.quote.q]\nplater = \"north\"\nlevel = \"show\"\ncost = \"30.00\"\n" +
			"grade = 90\nwork = \"" + work + "\"\n"
	}
	worn := "[piece.sound.finding.worn]\ndefect = \"nickel showing\"\n"
	bent := "[piece.sound.finding.bent]\ndefect = \"bend\"\nseverity = \"light\"\n"
	for _, c := range []struct {
		name, more string
		left       []string
		hangs      bool
	}{
		{"plating alone", quote("replate") + worn + bent, []string{"bent"}, false},
		{"mended too", quote("repair-replate") + worn + bent, nil, true},
		{"harmless", quote("replate") + worn + bent + "harmless = true\n", []string{"bent"}, true},
		{"straightened before", quote("replate") + worn + bent + "done = [\"straighten\"]\n", nil, true},
		{"of finish", quote("replate") + worn + strings.Replace(bent, "bend", "dent", 1), nil, true},
	} {
		d := afterRecorder(t, "", c.more)
		must(t, d, step{"sent", Facts{Target: "sound", To: "north"}}, step{"approved", Facts{Target: "sound"}},
			step{"back", Facts{Target: "sound"}})
		var left []string
		for _, f := range pieceOf(t, d, "sound").Findings {
			left = append(left, f.ID)
		}
		if strings.Join(left, " ") != strings.Join(c.left, " ") || (asItIs(t, d, "sound") != nil) != c.hangs {
			t.Errorf("%s: %v is left, and it hangs: %v", c.name, left, asItIs(t, d, "sound") != nil)
		}
	}
}

// TestHungUnsound: a twisted piece that is made to fit by handwork and hung all the same is
// a fact: the handwork is paid for, and its grade is no better than that leaves it.
func TestHungUnsound(t *testing.T) {
	twisted := `[piece.made]
fits = []
kind = "original"
metal = "steel"
grade = 90
[piece.made.fit.a]
hours = 1.5
cap = 85
[piece.made.finding.twist]
defect = "twist"
`
	d := afterRecorder(t, "", twisted)
	if c := asItIs(t, d, "made"); c != nil {
		t.Fatalf("a twisted piece may hang: %+v", c)
	}
	must(t, d, step{"hung", Facts{Target: "made"}})
	c := asItIs(t, d, "made")
	if got := d.State.Job.SpentSum; got != 75_00 || c == nil || c.Grade != 85_00 || c.Cash != 0 {
		t.Errorf("spent %d on it: %+v", got, c)
	}
}
