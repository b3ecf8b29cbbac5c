package oracle

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"strings"
	"testing"
)

// TestBorrowsNothing: of our own the oracle imports catalog alone, and there it uses the
// plain data: it calls no function or method of it, by which it would round, read or judge
// as the program does. Nothing but tests uses the oracle.
func TestBorrowsNothing(t *testing.T) {
	does, data := declared(t, "../../../catalog")
	used := 0
	for name, file := range parsed(t, ".") {
		for _, i := range file.Imports {
			path := strings.Trim(i.Path.Value, `"`)
			if strings.HasPrefix(path, "brightset") && path != "brightset/catalog" ||
				strings.Contains(strings.Split(path, "/")[0], ".") {
				t.Errorf("%s imports %s", name, path)
			}
		}
		called := map[*ast.SelectorExpr]bool{}
		ast.Inspect(file, func(n ast.Node) bool {
			if call, ok := n.(*ast.CallExpr); ok {
				if sel, ok := call.Fun.(*ast.SelectorExpr); ok {
					called[sel] = true
				}
			}
			sel, ok := n.(*ast.SelectorExpr)
			if !ok {
				return true
			}
			of, _ := sel.X.(*ast.Ident)
			switch {
			case of != nil && of.Name == "catalog":
				used++
				if !data[sel.Sel.Name] {
					t.Errorf("%s uses catalog.%s, which is neither a type nor a constant", name, sel.Sel.Name)
				}
			case of != nil && of.Name == "slices":
			case called[sel] && does[sel.Sel.Name]:
				t.Errorf("%s calls %s, a method of catalog's", name, sel.Sel.Name)
			}
			return true
		})
	}
	if used < 50 || !does["Or"] || !does["AtPlater"] || !data["Cents"] || data["Of"] {
		t.Fatalf("read wrongly: %d uses; %d methods, %d types and constants", used, len(does), len(data))
	}
	folders, err := filepath.Glob("../../*/doc.go")
	if err != nil || len(folders) < 9 {
		t.Fatal(folders, err)
	}
	for i, doc := range folders {
		folders[i] = filepath.Dir(doc)
	}
	for _, folder := range append(folders, "../../seeded", "../../../cmd/brightset", "../../../solver",
		"../../../catalog") {
		for name, file := range parsed(t, folder) {
			for _, i := range file.Imports {
				if strings.Contains(i.Path.Value, `/model/internal/`) {
					t.Errorf("%s is no test and uses what serves tests alone", name)
				}
			}
		}
	}
}

// declared gives the methods of a package, and its types and constants.
func declared(t *testing.T, folder string) (methods, data map[string]bool) {
	t.Helper()
	methods, data = map[string]bool{}, map[string]bool{}
	for _, file := range parsed(t, folder) {
		for _, d := range file.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				methods[d.Name.Name] = methods[d.Name.Name] || d.Recv != nil && d.Name.IsExported()
			case *ast.GenDecl:
				for _, s := range d.Specs {
					switch s := s.(type) {
					case *ast.TypeSpec:
						data[s.Name.Name] = true
					case *ast.ValueSpec:
						for _, n := range s.Names {
							data[n.Name] = d.Tok == token.CONST
						}
					}
				}
			}
		}
	}
	return methods, data
}

// parsed gives the Go files of a folder, without tests.
func parsed(t *testing.T, folder string) map[string]*ast.File {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(folder, "*.go"))
	if err != nil || len(names) == 0 {
		t.Fatal(folder, names, err)
	}
	out := map[string]*ast.File{}
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		if out[name], err = parser.ParseFile(token.NewFileSet(), name, nil, 0); err != nil {
			t.Fatal(err)
		}
	}
	return out
}
