package bench

import (
	"bytes"
	"context"
	"embed"
	"encoding/json"
	"errors"
	"html/template"
	"net/http"
	"strconv"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/ask"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
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
	Page     string // of the navigation
	Here     string // the path to come back to
	Base     string // revision
	Sums     [][2]string
	Verdict  string
	Standing string
	Fits     bool
	Slots    []report.BenchSlot
	Slot     string
	CanUndo  bool
	CanRedo  bool
	Warnings []string
}

// open loads the job for a page; where that fails the page says what to put right.
func (s *Server) open(w http.ResponseWriter, r *http.Request, name string) (*catalog.Recorder, *plan.Plan, frame, bool) {
	d, err := s.desk()
	if err != nil {
		var m *catalog.Mistakes
		if errors.As(err, &m) {
			s.show(w, http.StatusConflict, "mistakes", map[string]any{"Text": m.Error()})
		} else {
			s.fail(w, r, http.StatusInternalServerError, err)
		}
		return nil, nil, frame{}, false
	}
	p, err := s.plan(r.Context(), d.State)
	if err != nil {
		s.fail(w, r, http.StatusInternalServerError, err)
		return nil, nil, frame{}, false
	}
	f := frame{Title: d.State.Job.Title, Page: name, Here: r.URL.RequestURI(), Base: d.State.Revision, Fits: p.Has, Slots: report.BenchSlots(p), Standing: report.Standing(d.State)}
	if p.Has {
		f.Sums, f.Verdict = report.PlanRows(p), report.Verdict(p)
	} else {
		f.Verdict = "Nothing meets the target within the limits, on these figures. What clashes, and the smallest step back: type brightset plan."
	}
	f.CanUndo, f.CanRedo = d.CanTurn()
	for _, warn := range d.State.Warnings {
		f.Warnings = append(f.Warnings, warn.Message)
	}
	return d, p, f, true
}

// slotPage is the page of one slot, the first where none is named.
func (s *Server) slotPage(w http.ResponseWriter, r *http.Request) {
	d, _, f, ok := s.open(w, r, "slots")
	if !ok {
		return
	}
	st := d.State
	if len(st.Slots) == 0 {
		s.show(w, http.StatusOK, "empty", map[string]any{"F": f})
		return
	}
	slot := 0
	for i := range st.Slots {
		if st.Slots[i].ID == r.FormValue("slot") {
			slot = i
		}
	}
	f.Slot = st.Slots[slot].ID
	p, rejected, bindings, err := s.beside(r.Context(), st)
	if err != nil {
		s.fail(w, r, http.StatusInternalServerError, err)
		return
	}
	lock, bans := locksOn(st, bindings, slot)
	s.show(w, http.StatusOK, "slot", map[string]any{
		"F": f, "Name": st.Slots[slot].Name, "ID": st.Slots[slot].ID, "Asks": report.SlotAsks(st, slot),
		"Cards": report.BenchCards(p, rejected, slot), "Defects": report.Defects(st), "Grades": st.Tables.Grades, "Tones": st.Tables.Tones,
		"Platers": st.Platers, "Lock": lock, "Bans": bans,
	})
}

// held is a lock or a ban with what it costs.
type held struct{ ID, Text string }

// locksOn are the lock and the bans that concern a slot.
func locksOn(st *catalog.State, all []ask.Binding, slot int) (lock string, bans []held) {
	if len(all) == 0 { // there is no plan to say what they cost
		all = ask.BindingsOf(st)
	}
	lines := report.BindingLines(st, all)
	for i := range all {
		b := &all[i]
		switch {
		case b.Lock != catalog.None && st.Locks[b.Lock].Slot == slot:
			lock = lines[i]
		case b.Ban != catalog.None:
			ban := &st.Bans[b.Ban]
			if ban.Slot == slot || (ban.Slot == catalog.None && ban.Piece != catalog.None && fitsSlot(&st.Pieces[ban.Piece], slot)) {
				bans = append(bans, held{ban.ID, lines[i]})
			}
		}
	}
	return lock, bans
}

func fitsSlot(p *catalog.Piece, slot int) bool {
	for _, s := range p.Fits {
		if s == slot {
			return true
		}
	}
	return false
}

// newPage adds a piece.
func (s *Server) newPage(w http.ResponseWriter, r *http.Request) {
	d, _, f, ok := s.open(w, r, "new")
	if !ok {
		return
	}
	var metals []string
	for i := range d.State.Tables.Metals {
		metals = append(metals, d.State.Tables.Metals[i].Name)
	}
	s.show(w, http.StatusOK, "new", map[string]any{"F": f, "Metals": append(metals, "unknown"), "For": r.FormValue("slot"), "All": d.State.Slots, "Next": freeName(d.State)})
}

// planPage is the set as a whole, with its pictures.
func (s *Server) planPage(w http.ResponseWriter, r *http.Request) {
	d, _, f, ok := s.open(w, r, "plan")
	if !ok {
		return
	}
	p, risk, stops, err := s.moneyOf(r.Context(), d.State)
	if err != nil {
		s.fail(w, r, http.StatusInternalServerError, err)
		return
	}
	data := map[string]any{"F": f}
	if p.Has {
		_, curve, err := s.curveOf(r.Context(), d.State)
		if err != nil {
			s.fail(w, r, http.StatusInternalServerError, err)
			return
		}
		data["Money"], data["Dots"], data["Curve"] = report.Charts(p, risk, curve)
		data["Stops"] = report.StopRows(d.State, stops)
		data["Rows"] = report.PlanLines(p)
	}
	s.show(w, http.StatusOK, "plan", data)
}

// papersPage lists the sheets that can be printed.
func (s *Server) papersPage(w http.ResponseWriter, r *http.Request) {
	_, p, f, ok := s.open(w, r, "papers")
	if !ok {
		return
	}
	data := map[string]any{"F": f}
	if p.Has {
		pages, papers, err := s.sheets(r.Context(), p)
		if err != nil {
			s.fail(w, r, http.StatusInternalServerError, err)
			return
		}
		type sheet struct{ Name, Title string }
		var all []sheet
		for _, one := range pages {
			title := one.Title
			if one.Sub != "" {
				title += " " + one.Sub
			}
			all = append(all, sheet{one.Name, title})
		}
		data["Sheets"], data["Held"] = all, papers.Held()
	}
	s.show(w, http.StatusOK, "papers", data)
}

// paper is one sheet, the same as orders writes.
func (s *Server) paper(w http.ResponseWriter, r *http.Request) {
	_, p, _, ok := s.open(w, r, "papers")
	if !ok || !p.Has {
		return
	}
	pages, _, err := s.sheets(r.Context(), p)
	if err != nil {
		s.fail(w, r, http.StatusInternalServerError, err)
		return
	}
	for _, one := range pages {
		if one.Name == r.PathValue("name") {
			text, err := one.HTML()
			if err != nil {
				s.fail(w, r, http.StatusInternalServerError, err)
				return
			}
			w.Header().Set("Content-Security-Policy", one.Policy())
			w.Header().Set("Content-Type", "text/html; charset=utf-8")
			w.Write(text)
			return
		}
	}
	http.NotFound(w, r)
}

func (s *Server) journalPage(w http.ResponseWriter, r *http.Request) {
	d, _, f, ok := s.open(w, r, "journal")
	if !ok {
		return
	}
	s.show(w, http.StatusOK, "journal", map[string]any{"F": f, "Rows": report.JournalRows(d.State)})
}

// whyPart says why a slot is filled as it is.
func (s *Server) whyPart(w http.ResponseWriter, r *http.Request) {
	d, err := s.desk()
	if err != nil {
		http.Error(w, "the files have mistakes", http.StatusConflict)
		return
	}
	for i := range d.State.Slots {
		if d.State.Slots[i].ID != r.FormValue("slot") {
			continue
		}
		ctx, done := context.WithTimeout(r.Context(), 4*patience)
		defer done()
		why, err := ask.AskWhy(ctx, d.State, i, solver.Settings{})
		if err != nil {
			http.Error(w, err.Error(), http.StatusInternalServerError)
			return
		}
		s.show(w, http.StatusOK, "why", map[string]any{"Rows": report.WhyRows(why), "Turns": report.WhyTurns(why), "Stopped": why.Stopped})
		return
	}
	http.NotFound(w, r)
}

// othersPart sets other plans beside the advised one.
func (s *Server) othersPart(w http.ResponseWriter, r *http.Request) {
	d, err := s.desk()
	if err != nil {
		http.Error(w, "the files have mistakes", http.StatusConflict)
		return
	}
	p, all, err := s.othersOf(r.Context(), d.State)
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	if !p.Has {
		http.NotFound(w, r)
		return
	}
	s.show(w, http.StatusOK, "others", map[string]any{"Rows": report.OtherRows(p, all)})
}

// whatIfPage has the sliders.
func (s *Server) whatIfPage(w http.ResponseWriter, r *http.Request) {
	d, p, f, ok := s.open(w, r, "what-if")
	if !ok {
		return
	}
	job := &d.State.Job
	data := map[string]any{"F": f, "Currency": job.Currency}
	if p.Has {
		data["Mean"] = catalog.FormatCenti(job.Target.Mean.Or(0))
		data["Budget"] = int64((job.Budget.Or(p.Outlay*2) + job.SpentSum) / 100)
		data["MostBudget"] = int64(max(job.Budget.Or(0)+job.SpentSum, p.Outlay)*2/100 + 100)
		data["Completion"] = int64(job.Completion.Or(0) / 10_000)
		data["Days"] = job.WithinDays.Or(choice.LastDay(d.State, p))
		data["MostDays"] = max(job.WithinDays.Or(0), choice.LastDay(d.State, p))*2 + 30
		data["HasBudget"], data["HasDays"] = job.Budget.Set, job.WithinDays.Set
	}
	s.show(w, http.StatusOK, "what-if", data)
}

// point is one plan on the curve, as the sliders show it.
type point struct {
	Grade    float64  `json:"grade"`
	Expected int64    `json:"expected_cents"`
	Outlay   int64    `json:"outlay_cents"`
	Line     string   `json:"line"`    // the change in one line
	Changes  []string `json:"changes"` // slot by slot
	Status   string   `json:"status"`
}

func pointOf(was, now *plan.Plan) point {
	if !now.Has {
		line := "nothing meets that"
		if now.Status == solver.Stopped {
			line = "not found in time"
		}
		return point{Status: now.Status.String(), Line: line, Changes: []string{}}
	}
	return point{Grade: now.Grade, Expected: int64(now.Expected), Outlay: int64(now.Outlay), Line: report.ChangeLine(was, now),
		Changes: append([]string{}, report.Changes(was, now)...), Status: now.Status.String()}
}

// curveJSON is the whole curve, worked out once: the slider of the mean moves on it.
func (s *Server) curveJSON(w http.ResponseWriter, r *http.Request) {
	d, err := s.desk()
	if err != nil {
		http.Error(w, "the files have mistakes", http.StatusConflict)
		return
	}
	p, c, err := s.curveOf(r.Context(), d.State)
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	points := []point{}
	if c != nil {
		for i := range c.Points {
			one := pointOf(p, c.Points[i].Plan)
			if !c.Points[i].Within {
				one.Line += ", over budget"
			}
			points = append(points, one)
		}
	}
	answer(w, map[string]any{"base": d.State.Revision, "points": points})
}

// whatIfJSON solves with other limits. It changes nothing.
func (s *Server) whatIfJSON(w http.ResponseWriter, r *http.Request) {
	d, err := s.desk()
	if err != nil {
		http.Error(w, "the files have mistakes", http.StatusConflict)
		return
	}
	p, err := s.plan(r.Context(), d.State)
	if err != nil || !p.Has {
		http.Error(w, "there is no plan to start from", http.StatusConflict)
		return
	}
	other := d.State.Clone()
	number := func(key string, most float64, set func(float64)) {
		if v, err := strconv.ParseFloat(r.FormValue(key), 64); err == nil && v >= 0 && v <= most {
			set(v)
		}
	}
	number("mean", 100, func(v float64) { other.Job.Target.Mean = value(catalog.Centi(v*100 + 0.5)) })
	number("budget", 1e9, func(v float64) { other.Job.Budget = value(catalog.Cents(v*100+0.5) - other.Job.SpentSum) })
	number("completion", 99.99, func(v float64) { other.Job.Completion = value(catalog.Micro(v*10_000 + 0.5)) })
	number("days", float64(catalog.MaxDays), func(v float64) { other.Job.WithinDays = value(int(v)) })
	ctx, done := patient(r.Context())
	defer done()
	now, err := program.Solve(ctx, other, solver.Settings{})
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	answer(w, pointOf(p, now))
}

func value[T any](v T) catalog.Val[T] { return catalog.Val[T]{V: v, Set: true} }

func answer(w http.ResponseWriter, v any) {
	w.Header().Set("Content-Type", "application/json")
	json.NewEncoder(w).Encode(v)
}
