package event_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// listed is a package as the go command lists it.
type listed struct {
	ImportPath, Dir, Export string
	GoFiles, Deps           []string
}

// packages lists all packages of the module, and what they are compiled against.
func packages(t *testing.T) map[string]*listed {
	t.Helper()
	cmd := exec.Command("go", "list", "-export", "-deps", "-json=ImportPath,Dir,Export,GoFiles,Deps", "brightset/...")
	var errs bytes.Buffer
	cmd.Stderr = &errs
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v\n%s", err, &errs)
	}
	all := map[string]*listed{}
	for d := json.NewDecoder(bytes.NewReader(out)); d.More(); {
		p := &listed{}
		if err := d.Decode(p); err != nil {
			t.Fatal(err)
		}
		all[p.ImportPath] = p
	}
	return all
}

// reader imports what the packages are compiled against, each once.
func reader(fset *token.FileSet, all map[string]*listed) types.Importer {
	return importer.ForCompiler(fset, "gc", func(path string) (io.ReadCloser, error) {
		if all[path] == nil || all[path].Export == "" {
			return nil, fmt.Errorf("nothing is compiled of %q", path)
		}
		return os.Open(all[path].Export)
	})
}

// checked gives the syntax and the types of a package, tests left out.
func checked(t *testing.T, fset *token.FileSet, from types.Importer, p *listed) ([]*ast.File, *types.Info) {
	t.Helper()
	var files []*ast.File
	for _, name := range p.GoFiles {
		f, err := parser.ParseFile(fset, filepath.Join(p.Dir, name), nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, f)
	}
	info := &types.Info{Types: map[ast.Expr]types.TypeAndValue{}}
	config := types.Config{Importer: from}
	if _, err := config.Check(p.ImportPath, fset, files, info); err != nil {
		t.Fatal(err)
	}
	return files, info
}

const here = "brightset/catalog/event"

// word is the type of this package that an expression has; "" for any other.
func word(info *types.Info, e ast.Expr) string {
	if n, ok := types.Unalias(info.Types[e].Type).(*types.Named); ok && n.Obj().Pkg() != nil &&
		n.Obj().Pkg().Path() == here {
		return n.Obj().Name()
	}
	return ""
}

// spelt finds the literals that stand for a word of this package: those that the compiler
// takes for one, and those that a word turned into a string is compared with.
func spelt(info *types.Info, files []*ast.File, found func(lit *ast.BasicLit, word string)) {
	literal := func(e ast.Expr, word string) {
		if lit, ok := ast.Unparen(e).(*ast.BasicLit); ok && lit.Kind == token.STRING && lit.Value != `""` && word != "" {
			found(lit, word)
		}
	}
	unwrapped := func(e ast.Expr) string {
		call, ok := ast.Unparen(e).(*ast.CallExpr)
		if !ok || len(call.Args) != 1 || !info.Types[call.Fun].IsType() {
			return ""
		}
		return word(info, call.Args[0])
	}
	for _, f := range files {
		ast.Inspect(f, func(n ast.Node) bool {
			switch x := n.(type) {
			case *ast.BasicLit:
				literal(x, word(info, x))
			case *ast.BinaryExpr:
				literal(x.X, unwrapped(x.Y))
				literal(x.Y, unwrapped(x.X))
			case *ast.SwitchStmt:
				for _, s := range x.Body.List {
					for _, e := range s.(*ast.CaseClause).List {
						if x.Tag != nil {
							literal(e, unwrapped(x.Tag))
						}
					}
				}
			}
			return true
		})
	}
}

// TestWordsAreWrittenOnce: outside of this package, tests left out, no action, table or key
// is a literal. The compiler says what is one: it takes "sent" for an action only where an
// action is wanted.
func TestWordsAreWrittenOnce(t *testing.T) {
	all, fset, looked := packages(t), token.NewFileSet(), 0
	from := reader(fset, all)
	for _, p := range all {
		if !strings.HasPrefix(p.ImportPath, "brightset/") || p.ImportPath == here {
			continue
		}
		if !slices.Contains(p.Deps, here) {
			continue // has no expression of these types
		}
		looked++
		files, info := checked(t, fset, from, p)
		spelt(info, files, func(lit *ast.BasicLit, word string) {
			t.Errorf("%s: %s is an event.%s, which is written down in %s alone", fset.Position(lit.Pos()), lit.Value, word, here)
		})
	}
	if looked < 6 {
		t.Errorf("only %d packages looked at", looked)
	}
}

// TestFindsLiterals: the test above can fail.
func TestFindsLiterals(t *testing.T) {
	source := `package p
import "brightset/catalog/event"
func f(a event.Action, m map[event.Key]any) bool {
	_ = m["stage"]
	_ = m[event.Key("lot")]
	_ = event.Of("piece", "a piece")
	switch string(a) {
	case "hung", string(event.Back):
	}
	_ = map[event.Key]string{"cost": "a sum"}
	return a == "sent" || "back" == string(a) || a == event.Sent || a == ""
}`
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "p.go"), []byte(source), 0o666); err != nil {
		t.Fatal(err)
	}
	fset := token.NewFileSet()
	files, info := checked(t, fset, reader(fset, packages(t)),
		&listed{ImportPath: "p", Dir: dir, GoFiles: []string{"p.go"}})
	got := map[string]bool{}
	spelt(info, files, func(lit *ast.BasicLit, word string) { got[word+" "+lit.Value] = true })
	want := []string{`Key "stage"`, `Key "lot"`, `Table "piece"`, `Action "hung"`, `Key "cost"`, `Action "sent"`,
		`Action "back"`}
	for _, w := range want {
		if !got[w] {
			t.Errorf("%s is not found", w)
		}
	}
	if len(got) != len(want) {
		t.Errorf("found %v, want %v", got, want)
	}
}
