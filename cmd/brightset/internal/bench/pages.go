package bench

import (
	"bytes"
	"embed"
	"errors"
	"fmt"
	"html/template"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"brightset/catalog"
	"brightset/catalog/event"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/plan"
)

//go:embed pages/*.html
var pageFiles embed.FS

var templates = template.Must(template.New("").Funcs(template.FuncMap{
	"add": func(a, b int) int { return a + b },
	"dict": func(pairs ...any) map[string]any {
		m := map[string]any{}
		for i := 0; i+1 < len(pairs); i += 2 {
			m[pairs[i].(string)] = pairs[i+1]
		}
		return m
	},
	"cut":   func(s string) []string { return strings.Split(s, "|") },
	"cls":   func(s string) string { return strings.ReplaceAll(strings.ReplaceAll(s, "'", ""), " ", "-") },
	"money": catalog.FormatMoney,
	"list":  func(all ...string) []string { return all },
	"times": func(n int) []int { return make([]int, n) },
}).ParseFS(pageFiles, "pages/*.html"))

// show writes a page.
func (s *Server) show(w http.ResponseWriter, code int, name string, data any) {
	var b bytes.Buffer
	if err := templates.ExecuteTemplate(&b, name, data); err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(code)
	w.Write(b.Bytes())
}

// frame is what every page has around it.
type frame struct {
	Title    string
	Page     string   // of the navigation
	Here     string   // the path to come back to
	Base     string   // what the page shows, as its forms carry it
	Token    string   // of its forms
	Did      string   // what was just recorded, in words; "" where nothing was
	Noted    []string // what is worth knowing of it
	Undone   bool     // it was just taken back
	Last     bool     // it can be taken back here, or brought back
	Sums     [][2]string
	Strip    [][3]string // money, finish, chance, date
	Name     string      // of the page
	Verdict  string
	Standing string
	Fits     bool
	Waits    bool // there is a position without a piece, or none: no plan is to be expected yet
	Pending  bool // the plan is still being worked out: the page says so, and shows it when it is there
	Slots    []report.BenchSlot
	Slot     string
	CanUndo  bool
	CanRedo  bool
	Warnings []string
}

// pageNames are what the pages are called that are always called the same.
var pageNames = map[string]string{"plan": "The set", "what-if": "What if", "papers": "Papers to print",
	"journal": "What was recorded", "new": "Add a piece"}

// open loads the job for a page; where that fails the page says what to put right.
func (s *Server) open(w http.ResponseWriter, r *http.Request,
	name string) (*catalog.Recorder, *plan.Plan, frame, bool) {
	if s.noJob() {
		http.Redirect(w, r, "/start", http.StatusSeeOther)
		return nil, nil, frame{}, false
	}
	d, err := s.recorder()
	if err != nil {
		var m *catalog.Mistakes
		if errors.As(err, &m) {
			s.show(w, http.StatusConflict, "mistakes", map[string]any{"Text": m.Error()})
		} else {
			s.fail(w, r, http.StatusInternalServerError, err)
		}
		return nil, nil, frame{}, false
	}
	p, err := s.soon(r.Context(), d.State)
	if err != nil {
		s.fail(w, r, http.StatusInternalServerError, err)
		return nil, nil, frame{}, false
	}
	f := frame{Title: d.State.Job.Title, Page: name, Name: pageNames[name], Here: here(r), Base: stamp(d),
		Token: newToken(), Pending: p == nil, Standing: report.Standing(d.State)}
	if f.Pending {
		p = &plan.Plan{Of: d.State}
	}
	f.Fits, f.Slots = p.Has, report.BenchSlots(p)
	without := empty(d.State)
	if f.Pending {
		f.Verdict = "The plan is being worked out."
	} else if p.Has {
		f.Sums, f.Verdict, f.Strip = report.PlanRows(p), report.Verdict(p), report.Sums(p)
	} else if len(without) > 0 {
		f.Verdict = "No piece yet for: " + few(without) + ". Add what lies on the bench."
	} else if len(p.Unfilled) > 0 {
		var none []*catalog.Slot
		for i := range p.Unfilled {
			none = append(none, &d.State.Slots[p.Unfilled[i].Slot])
		}
		f.Verdict = "Nothing that is there will do for: " + few(none) + ". Every piece there says why not."
	} else {
		f.Verdict = "Nothing meets the target within the limits, on these figures."
	}
	f.Waits = len(without) > 0 || len(d.State.Slots) == 0
	f.CanUndo, f.CanRedo = d.CanTurn()
	f.Did, f.Undone, f.Last = told(d, r)
	f.Noted = s.noted.of(r.FormValue("did"))
	for _, warn := range d.State.Warnings {
		if slices.ContainsFunc(without, func(s *catalog.Slot) bool { return s.From == warn.From }) {
			continue // the verdict says so
		}
		f.Warnings = append(f.Warnings, warn.Message)
	}
	return d, p, f, true
}

// told is what a page has to say of what was just recorded or taken back, and whether that is the last
// thing, so that it can be turned.
func told(d *catalog.Recorder, r *http.Request) (text string, undone, last bool) {
	of := r.FormValue("did")
	if undone = of == ""; undone {
		of = r.FormValue("undone")
	}
	log, err := d.Log()
	seq, bad := strconv.Atoi(of)
	if err != nil || bad != nil || len(log) == 0 {
		return "", false, false
	}
	for i := range log {
		if e := &log[i]; e.Seq == seq && !e.Action.Turns() {
			end := &log[len(log)-1]
			return report.EntryText(e), undone, end.Seq == seq || end.Of == seq
		}
	}
	return "", false, false
}

// empty are the positions for which there is no piece.
func empty(st *catalog.State) []*catalog.Slot {
	var all []*catalog.Slot
	for i := range st.Slots {
		if !slices.ContainsFunc(st.Pieces, func(p catalog.Piece) bool { return slices.Contains(p.Fits, i) }) {
			all = append(all, &st.Slots[i])
		}
	}
	return all
}

// few names the first of many positions.
func few(slots []*catalog.Slot) string {
	var names []string
	for _, s := range slots[:min(5, len(slots))] {
		names = append(names, s.Name)
	}
	if more := len(slots) - len(names); more > 0 {
		names = append(names, fmt.Sprintf("and %d more", more))
	}
	return strings.Join(names, ", ")
}

// newPage adds a piece.
func (s *Server) newPage(w http.ResponseWriter, r *http.Request) {
	d, _, f, ok := s.open(w, r, "new")
	if !ok {
		return
	}
	s.show(w, http.StatusOK, "new", map[string]any{
		"F":       f,
		"Metals":  append(metals(d.State), "unknown"),
		"For":     r.FormValue("slot"),
		"All":     d.State.Slots,
		"Next":    newName(d.State, event.New, ""),
		"Vendors": d.State.Vendors, "Bundles": d.State.Together(), "Currency": d.State.Job.Currency,
	})
}

// ready answers when the plan is known.
func (s *Server) ready(w http.ResponseWriter, r *http.Request) {
	if d := s.forPart(w); d != nil {
		if _, err := s.plan(r.Context(), d.State); err != nil {
			http.Error(w, err.Error(), http.StatusInternalServerError)
			return
		}
		w.WriteHeader(http.StatusNoContent)
	}
}

func (s *Server) journalPage(w http.ResponseWriter, r *http.Request) {
	d, _, f, ok := s.open(w, r, "journal")
	if !ok {
		return
	}
	s.show(w, http.StatusOK, "journal", map[string]any{"F": f, "Rows": report.JournalRows(d.State),
		"Trades": d.State.Trades, "Metals": append(metals(d.State), "unknown"), "All": d.State.Slots})
}

// forPart opens the job for a part of a page; where that fails the answer is given, and it is nil.
func (s *Server) forPart(w http.ResponseWriter) *catalog.Recorder {
	d, err := s.recorder()
	if err != nil {
		http.Error(w, "the files have mistakes", http.StatusConflict)
		return nil
	}
	return d
}

// showPart writes a part of a page, unless it failed or there is no plan that it could be of.
func (s *Server) showPart(w http.ResponseWriter, r *http.Request, name string, p *plan.Plan, err error,
	data func() map[string]any) {
	switch {
	case err != nil:
		http.Error(w, err.Error(), http.StatusInternalServerError)
	case !p.Has:
		http.NotFound(w, r)
	default:
		s.show(w, http.StatusOK, name, data())
	}
}
