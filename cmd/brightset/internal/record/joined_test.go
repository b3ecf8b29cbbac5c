package record

import (
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
)

// twoBags is a copy of the demo with a slot that needs 36 bolts, a bag of 29 with haze and one
// of 12 that is scratched and was graded by eye.
func twoBags(t *testing.T, more string) string {
	t.Helper()
	path := demo(t)
	edit(t, path, "\n[slot.bolts]\nquantity = 36\n"+
		"[piece.a]\nfits = [\"bolts\"]\nkind = \"original\"\nmetal = \"brass\"\nquantity = 29\nvalue = \"0.10\"\n"+
		"[piece.a.finding.h]\ndefect = \"haze\"\nseverity = \"light\"\nextent = 0.2\n"+
		"[piece.a.quote.q]\nplater = \"pell\"\ncost = \"3.00\"\nlevel = \"show\"\ngrade = 92\n"+
		"[piece.b]\nfits = [\"bolts\"]\nkind = \"original\"\nmetal = \"brass\"\nquantity = 12\ngrade = 61\n"+
		"[piece.b.finding.h]\ndefect = \"haze\"\nseverity = \"moderate\"\nextent = 0.1\n"+
		"[piece.b.finding.s]\ndefect = \"scratches\"\n"+more)
	return path
}

// TestJoined: two bags are one, as large as both, in which the worse of either counts; what was
// left over stays what it was.
func TestJoined(t *testing.T) {
	path := twoBags(t, "")
	st := recorderAt(t, path).State
	a, _ := st.FindPiece("a")
	b, _ := st.FindPiece("b")
	bolts := st.Pieces[a].Fits[0]
	if other, missing := choice.MadeUp(st, bolts, a); other != b || missing != 7 {
		t.Errorf("made up by %d with %d, want bag b with 7", other, missing)
	}
	if err := do(t, recorderAt(t, path), "joined", Facts{Target: "a", Piece: "b", Count: "7"}); err != nil {
		t.Fatal(err)
	}
	st = recorderAt(t, path).State
	a, _ = st.FindPiece("a")
	b, _ = st.FindPiece("b")
	p, rest := &st.Pieces[a], &st.Pieces[b]
	// 29 at 0.10 and 7 at nothing are 2.90 for 36, 8 cents each
	if p.Quantity != 36 || rest.Quantity != 5 || p.Grade.V != 61_00 || p.Value != 8 || len(p.Findings) != 2 {
		t.Errorf("%+v\n%+v", p, rest)
	}
	for _, f := range p.Findings {
		name := st.Tables.Defects[f.Defect].Name
		if name == "haze" && (f.Severity != catalog.Moderate || f.Extent != 200_000) ||
			name != "haze" && name != "scratches" {
			t.Errorf("%s: %+v", name, f)
		}
	}
	if known := p.Quotes[0].Known; !known.Set || len(known.V) != 1 || known.V[0] != "h" {
		t.Errorf("the price was named for %v, want the haze alone", known)
	}
	if err := do(t, recorderAt(t, path), "joined", Facts{Target: "a", Piece: "b"}); err != nil {
		t.Fatal(err)
	}
	st = recorderAt(t, path).State
	if _, there := st.FindPiece("b"); there {
		t.Error("an empty bag is still there")
	}
}

// TestNotJoined: bags that are not alike, and what is somebody else's.
func TestNotJoined(t *testing.T) {
	const like = "[piece.c]\nfits = [\"bolts\"]\nquantity = 9\ngrade = 80\n"
	for what, more := range map[string]string{
		"is reproduction":   like + "kind = \"reproduction\"\nmetal = \"brass\"\n",
		"another metal":     like + "kind = \"original\"\nmetal = \"steel\"\n",
		"buy it first":      like + "kind = \"original\"\nmetal = \"brass\"\nowner = \"tinshed\"\nprice = \"0.30\"\n",
		"came off":          like + "kind = \"original\"\nmetal = \"brass\"\noff = true\n",
		"have to be here":   like + "kind = \"original\"\nmetal = \"brass\"\nchance = 0.5\n",
		"does not fit":      strings.Replace(like, "bolts", "crest", 1) + "kind = \"original\"\nmetal = \"brass\"\n",
		"nobody has looked": strings.Replace(like, "grade = 80\n", "", 1) + "kind = \"original\"\nmetal = \"brass\"\n",
	} {
		path := twoBags(t, more)
		err := do(t, recorderAt(t, path), "joined", Facts{Target: "a", Piece: "c"})
		if err == nil || !strings.Contains(err.Error(), what) {
			t.Errorf("want %q, got %v", what, err)
		}
		st := recorderAt(t, path).State
		a, _ := st.FindPiece("a")
		c, _ := st.FindPiece("c")
		if choice.Unlike(st, a, c) == "" {
			t.Errorf("%s: bag c would do", what)
		}
	}
	if err := do(t, recorderAt(t, twoBags(t, "")), "joined", Facts{Target: "a", Piece: "a"}); err == nil {
		t.Error("a bag was put together with itself")
	}
}
