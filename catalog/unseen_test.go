package catalog

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"brightset/testdata/campaign"
)

// invisible are all characters that can't be seen, straight from the tables of Unicode:
// controls, what has no width, what turns the direction of writing, separators of lines,
// fillers, and codes that are no characters.
func invisible() (out []rune) {
	shown := func(r rune) bool { // signs drawn around the figures that follow
		return unicode.Is(unicode.Prepended_Concatenation_Mark, r)
	}
	for r := rune(1); r <= unicode.MaxRune; r++ {
		nothing := r >= 0xfdd0 && r <= 0xfdef || r%0x10000 >= 0xfffe
		if nothing || !shown(r) && unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Bidi_Control,
			unicode.Other_Default_Ignorable_Code_Point, unicode.Variation_Selector) {
			out = append(out, r)
		}
	}
	return out
}

// soiled is a name with a character in it somewhere: before, within, behind, or alone.
func soiled(name string, r rune, where int) string {
	at := []int{0, len(name) / 2, len(name)}
	if where == len(at) {
		return string(r)
	}
	return name[:at[where]] + string(r) + name[at[where]:]
}

// written gives the two ways in which a text may stand in a file: as it is, where TOML
// allows that, and by numbers.
func written(text string) []string {
	byNumber := ""
	for _, r := range text {
		byNumber += fmt.Sprintf("\\U%08X", r)
	}
	out := []string{`"` + byNumber + `"`}
	if !strings.ContainsFunc(text, unicode.IsControl) {
		out = append(out, `"`+text+`"`)
	}
	return out
}

const soiledShop = `[piece.spare]
fits = ["rim"]
kind = "original"
metal = "brass"
grade = 90
`

// TestUnseen puts every character that can't be seen into every path, id and name: none
// is taken, each is told at its own line and column, and never is a file left out in
// silence, which would make another plan the cheapest one.
func TestUnseen(t *testing.T) {
	all := invisible()
	if len(all) < 4000 {
		t.Fatalf("only %d characters", len(all))
	}
	places := []struct{ line, name string }{ // %s is the name, in quotes
		{"[job]\ntitle = %s\nshop = \"shop.toml\"\n[slot.a]\npart = \"rim\"\n", "x"},
		{"[job]\ntitle = \"x\"\nshop = %s\n[slot.a]\npart = \"rim\"\n", "shop.toml"},
		{"include = [%s]\n[job]\ntitle = \"x\"\n[slot.a]\npart = \"rim\"\n", "own.toml"},
		{"[job]\ntitle = \"x\"\nshop = \"shop.toml\"\n[slot.a]\npart = %s\n", "rim"},
		{"[job]\ntitle = \"x\"\nshop = \"shop.toml\"\n[slot.a]\nname = %s\npart = \"rim\"\n", "rim"},
		{"[job]\ntitle = \"x\"\nshop = \"shop.toml\"\n[slot.%s]\npart = \"rim\"\n", "a"},
		{"[job]\ntitle = \"x\"\nshop = \"shop.toml\"\n[slot.a]\npart = \"rim\"\n[plater.%s]\n", "north"},
		{"[job]\ntitle = \"x\"\nshop = \"shop.toml\"\n[slot.a]\npart = \"rim\"\n[piece.%s]\nfits = [\"rim\"]\nkind = " +
			"\"original\"\nmetal = \"brass\"\n", "p-1"},
		{"[job]\ntitle = \"x\"\nshop = \"shop.toml\"\n[slot.a]\npart = \"rim\"\n[piece.p]\nfits = [%s]\nkind = " +
			"\"original\"\nmetal = \"brass\"\n", "rim"},
		{"[job]\ntitle = \"x\"\nshop = \"shop.toml\"\n[slot.a]\npart = \"rim\"\n[piece.p]\nfits = [\"rim\"]\nkind = " +
			"\"original\"\nmetal = \"brass\"\nphotos = [%s]\n", "a.jpg"},
		{"[job]\ntitle = \"x\"\nshop = \"shop.toml\"\n[slot.a]\npart = \"rim\"\n[piece.p]\nfits = [\"rim\"]\nkind = " +
			"\"original\"\nmetal = %s\n", "brass"},
		{"[job]\ntitle = \"x\"\nshop = \"shop.toml\"\n[slot.a]\npart = \"rim\"\n[match.%s]\nslots = [\"a\"]\nsame_plater = " +
			"true\n", "m"},
	}
	r := rand.New(rand.NewPCG(8, 1))
	tried := 0
	for n := range campaign.Cases(800, 12*len(all)) {
		char := all[r.IntN(len(all))]
		if n < 12*len(all) && campaign.Cases(0, 1) == 1 {
			char = all[n/12]
		} else if n%2 == 0 && char > 0xffff { // half of them from where people's are
			char = all[r.IntN(400)]
		}
		p := places[n%len(places)]
		name := soiled(p.name, char, r.IntN(4))
		inWords := strings.Contains(p.line, "title = %s") || strings.Contains(p.line, "\nname = %s")
		if inWords && (char >= 0xfe00 && char <= 0xfe0f || char == '\n' || char == '\t') {
			continue // how a picture looks, and what parts words
		}
		for _, quoted := range written(name) {
			job := fmt.Sprintf(p.line, quoted)
			st, err := loadFrom(map[string][]byte{"job.toml": []byte(job), "shop.toml": []byte(soiledShop),
				"own.toml": []byte(soiledShop)})
			before, _, _ := strings.Cut(p.line, "%s")
			line := strings.Count(before, "\n") + 1
			var m *Mistakes
			if st != nil || !errors.As(err, &m) || !mentions(m, line, char) {
				t.Fatalf("U+%04X in\n%s\ngives a state: %v; mistakes: %v", char, job, st != nil, err)
			}
			tried++
		}
	}
	t.Logf("%d files tried", tried)
}

// mentions says whether a mistake names a character, on its line, and says what to write.
func mentions(m *Mistakes, line int, char rune) bool {
	for _, one := range m.List {
		if one.Line == line && one.Column > 1 && strings.Contains(one.Message, fmt.Sprintf("U+%04X", char)) &&
			one.Hint != "" && utf8.ValidString(one.String()) {
			return true
		}
	}
	return false
}

// TestSeen: what can be seen stays, in any script, pictures included, and notes may go
// over several lines.
func TestSeen(t *testing.T) {
	for _, name := range []string{"Zierleiste 左", "đầu", "نافذة", "ขอบ", "❤️ rim", "e\u0301",
		"a\u00a0b"} {
		job := fmt.Sprintf("[job]\ntitle = %q\n[slot.a]\nname = %q\n[piece.p]\nfits = [\"a\"]\nkind = \"original\"\nmetal "+
			"= \"brass\"\nnote = \"\"\"first\nsecond\tmi\u200ckhaham \U0001F468\u200d\U0001F527\"\"\"\n", name, name)
		st, err := loadFrom(map[string][]byte{"job.toml": []byte(job)})
		if err != nil || st.Job.Title != name || st.Slots[0].Name != name || !strings.Contains(st.Pieces[0].Note, "\n") {
			t.Errorf("%q: %v", name, err)
		}
	}
}

// TestUnseenPlace: the caret stands under the character, and the hint is the name
// without it.
func TestUnseenPlace(t *testing.T) {
	_, err := loadFrom(map[string][]byte{"job.toml": []byte("[job]\ntitle = \"x\"\nshop = \"sh\u200bop.toml\"\n"),
		"shop.toml": nil})
	want := "job.toml:3:11: shop: this contains U+200B, a character that takes no room\n    shop = \"sh op.toml\"\n     " +
		"         ^\n    delete it: write shop = \"shop.toml\""
	if err == nil || err.Error() != want {
		t.Errorf("got\n%v\nwant\n%s", err, want)
	}
}

// TestMarkAtTheBeginning: one byte-order mark at the beginning of a file is dropped, as
// some editors write it; a second one is a mistake at its place.
func TestMarkAtTheBeginning(t *testing.T) {
	const mark, job = "\ufeff", "[job]\ntitle = \"x\"\nshop = \"shop.toml\"\n[slot.a]\npart = \"rim\"\n"
	st, err := loadFrom(map[string][]byte{"job.toml": []byte(mark + job), "shop.toml": []byte(mark + soiledShop)})
	if err != nil || len(st.Pieces) != 1 {
		t.Errorf("with a mark: %v", err)
	}
	for name, files := range map[string]map[string][]byte{
		"job.toml":  {"job.toml": []byte(mark + mark + job), "shop.toml": []byte(soiledShop)},
		"shop.toml": {"job.toml": []byte(job), "shop.toml": []byte(mark + mark + soiledShop)},
	} {
		if st, err := loadFrom(files); st != nil || err == nil ||
			!strings.HasPrefix(err.Error(), name+":1:1: the file begins with two byte-order marks") {
			t.Errorf("two marks: %v", err)
		}
	}
}
