package model

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
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
