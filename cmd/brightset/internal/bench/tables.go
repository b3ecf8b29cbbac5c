package bench

import (
	"errors"
	"fmt"
	"io"
	"net/http"
	"path/filepath"
	"strconv"
	"strings"
	"sync"

	"brightset/catalog"
	"brightset/catalog/sheet"
)

// exportTable sends a table of the job for a spreadsheet, as export writes it. It begins with a byte-order mark:
// nobody here is asked what his spreadsheet needs.
func (s *Server) exportTable(w http.ResponseWriter, r *http.Request) {
	name, isCSV := strings.CutSuffix(r.PathValue("table"), ".csv")
	what, err := sheet.ParseWhat(name)
	if err != nil || !isCSV {
		http.NotFound(w, r)
		return
	}
	d := s.forPart(w)
	if d == nil {
		return
	}
	text, err := sheet.Export(d.State, what, sheet.Writing{Mark: true})
	if err != nil {
		s.fail(w, r, http.StatusUnprocessableEntity, err)
		return
	}
	w.Header().Set("Content-Type", "text/csv; charset=utf-8")
	w.Header().Set("Content-Disposition", fmt.Sprintf("attachment; filename=%q", name+".csv"))
	io.WriteString(w, text)
}

// mostProblems is how many problems of a table are shown.
const mostProblems = 50

// importTable reads a table as import does, and records it as one act.
func (s *Server) importTable(w http.ResponseWriter, r *http.Request) {
	file, head, err := r.FormFile("table")
	if err != nil {
		s.fail(w, r, http.StatusBadRequest, fmt.Errorf("no table came: %w", err))
		return
	}
	defer file.Close()
	data, err := io.ReadAll(file)
	if err != nil {
		s.fail(w, r, http.StatusRequestEntityTooLarge, fmt.Errorf("the table is too large: %w", err))
		return
	}
	what, err := sheet.ParseWhat(r.PostForm.Get("what"))
	if err != nil {
		s.fail(w, r, http.StatusBadRequest, err)
		return
	}
	how := sheet.Reading{Off: r.PostForm.Get("off") != "", DecimalComma: r.PostForm.Get("decimal-comma") != ""}
	s.writing.Lock()
	defer s.writing.Unlock()
	var warnings []sheet.Problem
	id := requestID(r.URL.Path, r.PostForm, data...)
	_, seq, err := s.try(r, id, func(d *catalog.Recorder) (act catalog.Act, err error) {
		act, warnings, err = sheet.Act(d, what, filepath.Base(head.Filename), data, how)
		return act, err
	})
	var problems sheet.Problems
	if errors.As(err, &problems) {
		err = errors.New(strings.Join(firstOf(problems), "\n"))
	}
	if err == nil && len(warnings) > 0 {
		s.noted.keep(seq, firstOf(warnings))
	}
	s.reply(w, r, seq, err)
}

// firstOf are the first of many problems of a table, in words.
func firstOf(problems []sheet.Problem) (lines []string) {
	for _, p := range problems[:min(len(problems), mostProblems)] {
		lines = append(lines, p.String())
	}
	if more := len(problems) - mostProblems; more > 0 {
		lines = append(lines, fmt.Sprintf("and %d more", more))
	}
	return lines
}

// noted is what is worth knowing of an entry, told with it: of the last one alone.
type noted struct {
	mu    sync.Mutex
	seq   int
	lines []string
}

func (n *noted) keep(seq int, lines []string) {
	n.mu.Lock()
	defer n.mu.Unlock()
	n.seq, n.lines = seq, lines
}

func (n *noted) of(seq string) []string {
	n.mu.Lock()
	defer n.mu.Unlock()
	if v, err := strconv.Atoi(seq); err != nil || v != n.seq {
		return nil
	}
	return n.lines
}
