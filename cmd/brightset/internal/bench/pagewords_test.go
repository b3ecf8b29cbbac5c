package bench

import (
	"go/ast"
	"go/parser"
	"go/token"
	"net/url"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// TestAtPage: what refuses an act is said in the words of the page.
func TestAtPage(t *testing.T) {
	for said, want := range map[string]string{
		"arm is at north; when it is back type: brightset record back arm-1": "arm is at north; when it is back press " +
			"“It came back”",
		"arm hangs in mast; if it was taken down, first type: brightset record unhung arm": "arm hangs in mast; if it was " +
			"taken down, first press “It was taken down again”",
		"arm has no grade; say how it looks: --grade 85": "arm has no grade; say how it looks: grade 85",
		`"2031-01-02" is before it; give a day from 2031-02-01 on, such as --on 2031-02-01; if that entry is wrong, take ` +
			`it back first: brightset record undo`: `"2031-01-02" is before it; give a day from 2031-02-01 on; if that ` +
			`entry is wrong, take it back first: press “Undo”`,
	} {
		if got := atPage(said); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// TestEveryHintAtPage: no hint of what records names a command that the page has no word for, and none of them
// says at the page what to type.
func TestEveryHintAtPage(t *testing.T) {
	named := regexp.MustCompile(`brightset record ([a-z]+)`)
	seen := 0
	for _, dir := range []string{"../record", "../../../../catalog"} {
		files, err := filepath.Glob(filepath.Join(dir, "*.go"))
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range files {
			if strings.HasSuffix(name, "_test.go") {
				continue
			}
			f, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
			if err != nil {
				t.Fatal(err)
			}
			ast.Inspect(f, func(n ast.Node) bool {
				text, is := literal(n)
				if !is {
					return true
				}
				if m := named.FindStringSubmatch(text); m != nil {
					if seen++; buttons[m[1]] == "" {
						t.Errorf("%s: the page has no word for %q", name, m[1])
					}
				}
				if got := atPage(text); strings.Contains(got, "brightset record") || strings.Contains(got, " --") {
					t.Errorf("%s: at the page it says %q", name, got)
				}
				return false
			})
		}
	}
	if seen < 12 {
		t.Errorf("only %d commands are named", seen)
	}
}

// literal is a text, written in one piece or in several.
func literal(n ast.Node) (string, bool) {
	switch x := n.(type) {
	case *ast.BasicLit:
		text, err := strconv.Unquote(x.Value)
		return text, x.Kind == token.STRING && err == nil
	case *ast.BinaryExpr:
		a, ok := literal(x.X)
		b, too := literal(x.Y)
		return a + b, ok && too && x.Op == token.ADD
	}
	return "", false
}

// TestRefusedInTheWordsOfThePage: a day that can't be right is refused without a command line.
func TestRefusedInTheWordsOfThePage(t *testing.T) {
	job := demo(t)
	h, _ := serve(job, "")
	w := post(h, "/do", url.Values{"base": {base(t, h)}, "target": {"job:crest-2"}, "back": {"/"}, "action": {"hung"},
		"slot": {"crest"}, "grade": {"80"}, "on": {"2019-01-19"}})
	text := w.Body.String()
	if w.Code != 422 || !strings.Contains(text, "beyond reason") || strings.Contains(text, "brightset record") ||
		strings.Contains(text, "--reason") {
		t.Error(w.Code, text)
	}
}

// TestHeldByName: the pieces that wait are named as on their labels.
func TestHeldByName(t *testing.T) {
	s, _ := server(demo(t), "", "")
	st := loaded(t, s)
	p, err := s.plan(t.Context(), st)
	if err != nil {
		t.Fatal(err)
	}
	papers, err := s.opt.Papers(t.Context(), st, p, false)
	if err != nil || len(papers.Held()) == 0 {
		t.Fatal(err, "nothing is held back")
	}
	text := get(s.Handler(), "/papers").Body.String()
	for i, id := range papers.Held() {
		at, ok := st.FindPiece(id)
		if called := papers.HeldCalled()[i]; !ok || st.Pieces[at].Name != "" && called == id ||
			!strings.Contains(text, "<bdi>"+called+"</bdi>") {
			t.Errorf("%q is called %q", id, called)
		}
	}
}
