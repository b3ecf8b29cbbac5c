package bench

import (
	"bytes"
	"mime/multipart"
	"net/http"
	"os"
	"slices"
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/catalog/sheet"
)

func tableForm(t *testing.T, fields map[string]string, name, text string) (*bytes.Buffer, string) {
	t.Helper()
	var b bytes.Buffer
	m := multipart.NewWriter(&b)
	for k, v := range fields {
		m.WriteField(k, v)
	}
	f, err := m.CreateFormFile("table", name)
	if err != nil {
		t.Fatal(err)
	}
	f.Write([]byte(text))
	m.Close()
	return &b, m.FormDataContentType()
}

func sorted(text string) string {
	lines := strings.Split(text, "\n")
	slices.Sort(lines)
	return strings.Join(lines, "\n")
}

// TestTables: what the page writes for a spreadsheet is what export writes, and read back into a job that has none
// of it, it is all there, in one entry that Undo takes back. A table with a mistake, and one about what is there
// already, changes nothing.
func TestTables(t *testing.T) {
	from, _ := serve(demo(t), "")
	tables := map[sheet.What]string{}
	for _, w := range sheet.All {
		answer := get(from, "/export/"+string(w)+".csv")
		if answer.Code != http.StatusOK || !strings.Contains(answer.Header().Get("Content-Disposition"), "attachment") {
			t.Fatal(w, answer.Code)
		}
		tables[w] = answer.Body.String()
	}
	job := demo(t)
	text, err := os.ReadFile(job)
	if err != nil {
		t.Fatal(err)
	}
	want, err := catalog.Load(job, catalog.Options{})
	if err != nil {
		t.Fatal(err)
	}
	head, _, _ := strings.Cut(string(text), "# ---- hood crest")
	if err := os.WriteFile(job, []byte(head), 0o666); err != nil {
		t.Fatal(err)
	}
	h, _ := serve(job, "")
	read := func(w sheet.What, text string) (int, string) {
		t.Helper()
		body, kind := tableForm(t, map[string]string{"base": base(t, h), "back": "/papers", "what": string(w),
			"token": newToken()}, "list.csv", text)
		answer := postBody(h, "/import", kind, body)
		if answer.Code == http.StatusSeeOther {
			return answer.Code, get(h, answer.Header().Get("Location")).Body.String()
		}
		return answer.Code, answer.Body.String()
	}
	before := folder(t, job)
	broken := strings.Replace(tables[sheet.Pieces], "pot metal", "pit metal", 1)
	if code, said := read(sheet.Pieces, broken); code != http.StatusUnprocessableEntity ||
		!strings.Contains(said, "row 2") || !strings.Contains(said, "pit metal") || folder(t, job) != before {
		t.Error("a table with a mistake:", code, said)
	}
	for _, w := range []sheet.What{sheet.Pieces, sheet.Findings, sheet.Quotes} {
		if code, said := read(w, tables[w]); code != http.StatusSeeOther || !strings.Contains(said, "imported a table") {
			t.Fatal(w, code, said)
		}
	}
	st, err := catalog.Load(job, catalog.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range sheet.All {
		one, _ := sheet.Export(st, w, sheet.Writing{Mark: true})
		if sorted(one) != sorted(tables[w]) { // what one entry adds is read in the order of its names
			t.Errorf("%s: read back it is\n%s\nand was\n%s", w, one, tables[w])
		}
	}
	if len(st.Pieces) != len(want.Pieces) {
		t.Error("pieces are missing")
	}
	before = folder(t, job)
	for _, w := range []sheet.What{sheet.Pieces, sheet.Findings} {
		if code, said := read(w, tables[w]); code != http.StatusUnprocessableEntity ||
			!strings.Contains(said, "is there already") || folder(t, job) != before {
			t.Error("what is there is read again:", code, said)
		}
	}
}
