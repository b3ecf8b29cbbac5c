package model

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// The import policy of the module. A package is named by its folder; "only in"
// covers the folders below it.
func TestImportPolicy(t *testing.T) {
	never := []struct{ from, to string }{
		{"catalog", "brightset/model"}, {"catalog", "brightset/solver"}, {"catalog", "brightset/cmd"},
		{"solver", "brightset/model"}, {"solver", "brightset/catalog"}, {"solver", "brightset/cmd"},
		{"model", "brightset/cmd"},
	}
	only := []struct{ what, in string }{{"toml", "catalog"}, {"clp", "solver"}, {"pflag", "cmd/brightset"}}
	seen := map[string]bool{}
	for file, imports := range moduleImports(t) {
		folder := filepath.ToSlash(filepath.Dir(file))
		seen[strings.Split(folder, "/")[0]] = true
		for _, path := range imports {
			for _, n := range never {
				if under(folder, n.from) && under(path, n.to) {
					t.Errorf("%s: %s must not import %s", file, n.from, path)
				}
			}
			if under(path, "brightset/testdata") && !strings.HasSuffix(file, "_test.go") && !under(folder, "model/internal") {
				t.Errorf("%s: %s is for tests only", file, path)
			}
			if !strings.Contains(strings.Split(path, "/")[0], ".") {
				continue // the standard library or our own
			}
			for _, o := range only {
				if strings.HasSuffix(strings.ToLower(path), "/"+o.what) && !under(folder, o.in) {
					t.Errorf("%s: only %s imports %s", file, o.in, path)
				}
			}
			if under(folder, "model") && path != "gonum.org/v1/gonum/stat/distuv" {
				t.Errorf("%s: model imports nothing from outside but distributions, not %s", file, path)
			}
		}
	}
	for _, folder := range []string{"catalog", "model", "solver"} {
		if !seen[folder] {
			t.Errorf("no Go file found in %s", folder)
		}
	}
}

// TestModelGoesOneWay: what each package of model, tests left out, may import of the
// others. check stands on plan alone.
func TestModelGoesOneWay(t *testing.T) {
	may := map[string]string{
		"plan":        "",
		"choice":      "plan",
		"sharedspare": "plan choice",
		"check":       "plan",
		"program":     "plan choice sharedspare check",
		"joint":       "plan choice check program",
		"ask":         "plan choice program",
		"risk":        "plan choice program",
		"paper":       "plan choice ask",
		"seeded":      "",
	}
	seen := map[string]bool{}
	for file, imports := range moduleImports(t) {
		from, ours := strings.CutPrefix(filepath.ToSlash(filepath.Dir(file)), "model/")
		if !ours || strings.HasPrefix(from, "internal/") || strings.HasSuffix(file, "_test.go") {
			continue
		}
		allowed, known := may[from]
		if !known {
			t.Errorf("%s: package %s has no place in the flow of model/doc.go", file, from)
		}
		seen[from] = true
		for _, path := range imports {
			to, ours := strings.CutPrefix(path, "brightset/model/")
			if ours && !slices.Contains(strings.Fields(allowed), to) {
				t.Errorf("%s: %s must not import %s", file, from, to)
			}
			if path == "brightset/solver" && (from == "check" || from == "choice" || from == "risk" ||
				from == "paper" || from == "sharedspare") {
				t.Errorf("%s: %s must not import the solver", file, from)
			}
		}
	}
	if len(seen) != len(may) {
		t.Errorf("%d of %d packages found", len(seen), len(may))
	}
}

func under(path, folder string) bool { return path == folder || strings.HasPrefix(path, folder+"/") }

// moduleImports gives the imports of every Go file of the module.
func moduleImports(t *testing.T) map[string][]string {
	t.Helper()
	all := map[string][]string{}
	err := filepath.WalkDir("..", func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && path != ".." && (strings.HasPrefix(d.Name(), ".") || d.Name() == "testdata") {
			return filepath.SkipDir
		}
		if filepath.Ext(path) != ".go" {
			return nil
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		name, err := filepath.Rel("..", path)
		if err != nil {
			return err
		}
		all[name] = nil
		for _, i := range f.Imports {
			p, err := strconv.Unquote(i.Path.Value)
			if err != nil {
				return err
			}
			all[name] = append(all[name], p)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}
