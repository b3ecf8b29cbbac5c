package bench

import (
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"unicode"

	"brightset/catalog"
	"brightset/catalog/disk"
)

// noJob says whether there is no job yet: the page then begins one.
func (s *Server) noJob() bool {
	_, err := os.Lstat(s.opt.Job)
	return os.IsNotExist(err)
}

// startPage asks what a job has to be called and which positions it has.
func (s *Server) startPage(w http.ResponseWriter, r *http.Request) {
	if !s.noJob() {
		http.Redirect(w, r, "/", http.StatusSeeOther)
		return
	}
	s.showStart(w, http.StatusOK, r, nil)
}

// showStart shows the form, with what was typed and why it was refused.
func (s *Server) showStart(w http.ResponseWriter, code int, r *http.Request, err error) {
	typed := func(key, otherwise string) string {
		if v := r.PostForm.Get(key); v != "" {
			return v
		}
		return otherwise
	}
	data := map[string]any{"Folder": filepath.Dir(s.opt.Job), "Title": typed("title", ""),
		"Currency": typed("currency", "USD"),
		"Target":   typed("target", "nice"), "Budget": typed("budget", ""), "Positions": typed("positions", ""),
		"Shop": typed("shop", ""), "Hourly": typed("hourly", "")}
	if err != nil {
		data["Why"] = strings.Split(err.Error(), "\n")
	}
	s.show(w, code, "start", data)
}

// start writes the files of a new job. They are tried before they are written: a job with a
// mistake is not begun. A file that is there already is never touched.
func (s *Server) start(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.fail(w, r, http.StatusBadRequest, err)
		return
	}
	s.writing.Lock()
	defer s.writing.Unlock()
	if !s.noJob() {
		http.Redirect(w, r, "/", http.StatusSeeOther)
		return
	}
	if err := s.begin(r); err != nil {
		s.showStart(w, http.StatusUnprocessableEntity, r, err)
		return
	}
	http.Redirect(w, r, "/", http.StatusSeeOther)
}

func (s *Server) begin(r *http.Request) error {
	get := func(key string) string { return strings.TrimSpace(r.PostForm.Get(key)) }
	if get("title") == "" {
		return fmt.Errorf("the job has no title: write what it is for, such as %q", "Launch Marigold, deck hardware")
	}
	shop := filepath.Join(filepath.Dir(s.opt.Job), "shop.toml")
	files := [][2]string{
		{shop, "# Your shop: who does the work, who sells, and what lies in the drawers.\n\n[shop]\n" +
			keyLine("name", get("shop")) + keyLine("hourly", get("hourly"))},
		{s.opt.Job, "# One object's bright trim. Begun at the bench; yours to change.\n\n[job]\n" +
			keyLine("title", get("title")) +
			keyLine("currency", get("currency")) + keyLine("shop", "shop.toml") + keyLine("target", get("target")) +
			keyLine("budget", get("budget")) + positions(r.PostForm.Get("positions"))},
	}
	if _, err := os.Lstat(shop); err == nil {
		files = files[1:] // the shop is there already, and serves this job too
	}
	texts := map[string]string{}
	for _, f := range files {
		texts[f[0]] = f[1]
	}
	if _, err := catalog.Load(s.opt.Job, catalog.Options{Today: s.opt.Now(), Yet: texts}); err != nil {
		return err
	}
	if err := disk.Folder(filepath.Dir(s.opt.Job)); err != nil {
		return err
	}
	for i, f := range files {
		if err := disk.New(f[0], []byte(f[1])); err != nil {
			for _, before := range files[:i] { // half a job is none, and would be in the way
				os.Remove(before[0])
			}
			return err
		}
	}
	return nil
}

// keyLine is a key with a text, "" where there is none.
func keyLine(key, text string) string {
	if text == "" {
		return ""
	}
	return key + " = " + catalog.TOMLText(text) + "\n"
}

// positions makes a table of every line: a name, and after a comma the surface that shines. What
// begins with "left and right" is two positions for which the same pieces are made, seen
// together.
func positions(text string) string {
	var b strings.Builder
	taken := map[string]bool{}
	for line := range strings.Lines(text) {
		name := strings.Join(strings.Fields(line), " ")
		if name == "" {
			continue
		}
		name, area := withArea(name)
		pair, isPair := cutFold(name, "left and right ")
		if !isPair {
			id := freeID(name, taken)
			fmt.Fprintf(&b, "\n[slot.%s]\n%s%s", id, keyLine("name", name), keyLine("area", area))
			continue
		}
		var ids []string
		part := freeID(pair, taken)
		for _, side := range []string{"left", "right"} {
			id := freeID(side+" "+pair, taken)
			ids = append(ids, id)
			fmt.Fprintf(&b, "\n[slot.%s]\n%s%s%s", id, keyLine("name", side+" "+pair), keyLine("part", part),
				keyLine("area", area))
		}
		fmt.Fprintf(&b, "\n[match.%s]\nslots = [%q, %q]\nsame_plater = true\n", part, ids[0], ids[1])
	}
	return b.String()
}

// withArea takes the area off the end of a line, where there is one.
func withArea(line string) (name, area string) {
	at := strings.LastIndexByte(line, ',')
	if at < 0 {
		return line, ""
	}
	if area = strings.TrimSpace(line[at+1:]); area == "" || area[0] < '0' || area[0] > '9' {
		return line, ""
	}
	return strings.TrimSpace(line[:at]), area
}

// cutFold cuts a beginning off, in any capitals.
func cutFold(text, beginning string) (string, bool) {
	if len(text) <= len(beginning) || !strings.EqualFold(text[:len(beginning)], beginning) {
		return text, false
	}
	return text[len(beginning):], true
}

// freeID makes a name into an id that can be typed and that none has yet.
func freeID(name string, taken map[string]bool) string {
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case r < unicode.MaxASCII && (unicode.IsLetter(r) || unicode.IsDigit(r)):
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
	}
	id := strings.Trim(b.String(), "-")
	if len(id) > 40 {
		id = strings.Trim(id[:40], "-")
	}
	if id == "" {
		id = "slot"
	}
	one := id
	for n := 2; taken[one]; n++ {
		one = fmt.Sprintf("%s-%d", id, n)
	}
	taken[one] = true
	return one
}
