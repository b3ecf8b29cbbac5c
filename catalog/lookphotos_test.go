package catalog

import (
	"strings"
	"testing"
)

// TestPhotosNotThere: a misspelt photo is told with its place and what was meant.
func TestPhotosNotThere(t *testing.T) {
	job := "[job]\ntitle = \"x\"\n[slot.a]\n[piece.p]\nfits = [\"a\"]\nkind = \"original\"\nmetal = \"brass\"\nphotos = " +
		"[\"front.jpg\", \"bakc.jpg\"]\n"
	inFolder(t, map[string]string{"job.toml": job, "front.jpg": "x", "back.jpg": "x"})
	st, err := Load("job.toml", Options{})
	if err != nil || len(st.Warnings) != 1 {
		t.Fatal(err, st)
	}
	if w := st.Warnings[0]; w.From.Line != 8 || w.From.Column != 24 || !strings.Contains(w.Message, `"bakc.jpg"`) ||
		!strings.Contains(w.Message, `did you mean "back.jpg"?`) {
		t.Errorf("%+v", w)
	}
}
