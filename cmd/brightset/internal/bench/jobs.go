package bench

import (
	"context"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"brightset/catalog"
	"brightset/catalog/disk"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// otherJob is another job of the shop, by the path of its file from the folder of the shop's.
type otherJob struct {
	Path, Title string
	Picked      bool
	state       *catalog.State
}

// mostLooked is how many files are looked at for other jobs.
const mostLooked = 60

// jobsOfShop are the other jobs of a job's shop: those that the shop's file lists, and those whose files lie beside
// it, beside the job, or one folder further down.
func jobsOfShop(st *catalog.State, opt catalog.Options) []otherJob {
	if st.Shop.File == "" {
		return nil
	}
	home := filepath.Dir(st.Shop.File)
	paths := slices.Clone(st.Shop.Jobs)
	for _, folder := range []string{home, filepath.Dir(st.Job.File)} {
		files, folders := within(folder)
		paths = append(paths, files...)
		for _, further := range folders {
			files, _ = within(further)
			paths = append(paths, files...)
		}
	}
	var all []otherJob
	looked := map[string]bool{}
	for _, path := range paths {
		path = filepath.Clean(path)
		if looked[path] || len(looked) == mostLooked || filepath.Clean(st.Shop.File) == path || !namesShop(path) {
			continue
		}
		looked[path] = true
		other, err := catalog.Load(path, opt)
		if err != nil || catalog.SameJob(st, other) || !catalog.SameShop(st, other) ||
			slices.ContainsFunc(all, func(o otherJob) bool { return catalog.SameJob(o.state, other) }) {
			continue
		}
		if rel, err := filepath.Rel(home, path); err == nil {
			path = filepath.ToSlash(rel)
		}
		all = append(all, otherJob{Path: path, Title: other.Job.Title, state: other})
	}
	return all
}

// within are the files in a folder that may be jobs, and what else is there that may be a folder.
func within(folder string) (files, folders []string) {
	all, _ := os.ReadDir(folder)
	for _, one := range all {
		path := filepath.Join(folder, one.Name())
		switch {
		case strings.EqualFold(filepath.Ext(path), ".toml"):
			files = append(files, path)
		case !one.Type().IsRegular():
			folders = append(folders, path)
		}
	}
	return files, folders
}

// namesShop says whether a file may be a job's: it is not read as one for its name alone.
func namesShop(path string) bool {
	f, err := disk.Open(path) // a pipe would be waited for
	if err != nil {
		return false
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, maxPhoto))
	return err == nil && strings.Contains(string(text), "[job]") && strings.Contains(string(text), "shop")
}

func (s *Server) otherJobs(st *catalog.State) []otherJob {
	return jobsOfShop(st, catalog.Options{Today: s.opt.Now(), Known: &s.known})
}

// jobsPage lists the jobs of the shop, and plans those together that are ticked.
func (s *Server) jobsPage(w http.ResponseWriter, r *http.Request) {
	d, _, f, ok := s.open(w, r, "plan")
	if !ok {
		return
	}
	f.Name = "Several jobs"
	all, picked := s.otherJobs(d.State), r.URL.Query()["with"]
	with := ""
	for i := range all {
		if all[i].Picked = slices.Contains(picked, all[i].Path); all[i].Picked {
			with = r.URL.RawQuery
		}
	}
	s.show(w, http.StatusOK, "jobs", map[string]any{"F": f, "Jobs": all, "With": with})
}

// jobsPart is the plan of this job and those that are named, as the command gives it.
func (s *Server) jobsPart(w http.ResponseWriter, r *http.Request) {
	d := s.forPart(w)
	if d == nil {
		return
	}
	states, key := []*catalog.State{d.State}, "jobs"
	for _, one := range s.otherJobs(d.State) {
		if slices.Contains(r.URL.Query()["with"], one.Path) {
			states, key = append(states, one.state), key+" "+one.Path+" "+one.state.Revision
		}
	}
	if len(states) < 2 {
		http.NotFound(w, r)
		return
	}
	text, err := answered(r.Context(), s, d.State, question{key, catalog.None}, 4*patience,
		func(ctx context.Context) (string, error) { return s.opt.Together(ctx, states) })
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	s.show(w, http.StatusOK, "said", map[string]any{"Text": text})
}

// otherPage shows the plan of another job of the shop by itself; nothing of it can be changed there.
func (s *Server) otherPage(w http.ResponseWriter, r *http.Request) {
	d, _, f, ok := s.open(w, r, "plan")
	if !ok {
		return
	}
	all := s.otherJobs(d.State)
	i := slices.IndexFunc(all, func(o otherJob) bool { return o.Path == r.FormValue("job") })
	if i < 0 {
		http.NotFound(w, r)
		return
	}
	st := all[i].state
	p, err := answered(r.Context(), s, d.State, question{"other " + all[i].Path + " " + st.Revision, catalog.None},
		patience, func(ctx context.Context) (*plan.Plan, error) { return program.Solve(ctx, st, solver.Settings{}) })
	if err != nil {
		s.fail(w, r, http.StatusInternalServerError, err)
		return
	}
	f.Name = st.Job.Title
	data := map[string]any{"F": f, "Job": all[i], "Verdict": "Nothing meets its target within its limits."}
	if p.Has {
		data["Rows"], data["Sums"], data["Verdict"] = report.PlanLines(p), report.PlanRows(p), report.Verdict(p)
	}
	s.show(w, http.StatusOK, "other", data)
}
