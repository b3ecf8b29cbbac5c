package bench

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/plan"
)

// demo is a copy of the demo job.
func demo(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("../../../../testdata/demo")); err != nil {
		t.Fatal(err)
	}
	return filepath.Join(dir, "job.toml")
}

func serve(job, code string) (http.Handler, *[]string) {
	s, told := server(job, "", code)
	return s.Handler(), told
}

func server(job, key, code string) (*Server, *[]string) {
	var told []string
	s := New(Options{Job: job, Hosts: func() []string { return []string{host} }, Key: key, Code: code,
		Now: func() time.Time { return time.Date(2031, 2, 1, 9, 0, 0, 0, time.UTC) },
		Papers: func(_ context.Context, st *catalog.State, p *plan.Plan, _ bool) (*report.Papers, error) {
			return &report.Papers{Plan: p, Date: "2031-02-01"}, nil
		},
		Tell: func(format string, args ...any) { told = append(told, fmt.Sprintf(format, args...)) }})
	s.glance = time.Minute // a page with the plan is what most tests are about
	return s, &told
}

func get(h http.Handler, path string, change ...func(*http.Request)) *httptest.ResponseRecorder {
	r := httptest.NewRequest("GET", "http://"+host+path, nil)
	for _, c := range change {
		c(r)
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

func post(h http.Handler, path string, form url.Values, change ...func(*http.Request)) *httptest.ResponseRecorder {
	r := httptest.NewRequest("POST", "http://"+host+path, strings.NewReader(form.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	for _, c := range change {
		c(r)
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

// base is the revision a page shows.
func base(t *testing.T, h http.Handler) string {
	t.Helper()
	m := baseField.FindStringSubmatch(get(h, "/journal").Body.String())
	if m == nil {
		t.Fatal("the page shows no revision")
	}
	return m[1]
}

// folder is everything in the job's folder, by its bytes.
func folder(t *testing.T, job string) string {
	t.Helper()
	all := ""
	filepath.WalkDir(filepath.Dir(job), func(path string, d os.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			text, _ := os.ReadFile(path)
			all += path + "\n" + string(text) + "\n"
		}
		return nil
	})
	return all
}
