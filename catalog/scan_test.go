package catalog

import "testing"

func TestScanFindsPlaces(t *testing.T) {
	const src = `# comment with [brackets] and "quotes"
title = "a # b" # c
[piece."rl 1"] # [x]
  name.short = 'its' 
# not a key = 1
[piece.'rl 1'.finding.a]
ähnlich."k\u0065y" = [ "one", # first
  "two" , ["x"],
]
t = { a = 1, b . c = "x]", "d" = [ {e = 2} ] }
when = 2027-01-10 07:30:00 # time
long = """
not = "a key"
\"""" """"
n = -1_000.5e3	
`
	s := scan(src)
	for _, c := range []struct {
		path       string
		key, value span
	}{
		{"title", spanAt(2, 1, 5), spanAt(2, 9, 7)},
		{join("piece"), spanAt(3, 2, 5), spanAt(3, 2, 5)},
		{join("piece", "rl 1"), spanAt(3, 8, 6), spanAt(3, 8, 6)},
		{join("piece", "rl 1", "name"), spanAt(4, 3, 4), spanAt(4, 3, 4)},
		{join("piece", "rl 1", "name", "short"), spanAt(4, 8, 5), spanAt(4, 16, 5)},
		{join("piece", "rl 1", "finding", "a"), spanAt(6, 23, 1), spanAt(6, 23, 1)},
		{join("piece", "rl 1", "finding", "a", "ähnlich", "key"), spanAt(7, 9, 10), spanAt(7, 22, 16)},
		{item(join("piece", "rl 1", "finding", "a", "ähnlich", "key"), 0), spanAt(7, 24, 5), spanAt(7, 24, 5)},
		{item(join("piece", "rl 1", "finding", "a", "ähnlich", "key"), 1), spanAt(8, 3, 5), spanAt(8, 3, 5)},
		{join("piece", "rl 1", "finding", "a", "t", "b", "c"), spanAt(10, 18, 1), spanAt(10, 22, 4)},
		{join("piece", "rl 1", "finding", "a", "when"), spanAt(11, 1, 4), spanAt(11, 8, 19)},
		{join("piece", "rl 1", "finding", "a", "long"), spanAt(12, 1, 4), spanAt(12, 8, 3)},
	} {
		got, ok := s.places[c.path]
		if !ok || got != (place{c.key, c.value}) {
			t.Errorf("%q: got %v, want %v %v", c.path, got, c.key, c.value)
		}
	}
	if _, found := s.places[join("piece", "rl 1", "finding", "a", "not")]; found {
		t.Error("a key was found inside a text")
	}
}

func TestScanStopsQuietly(t *testing.T) {
	for _, src := range []string{"", "[", "[[", "[a", "[a.", "a", "a =", "a = \"", "a = '''", "a = [", "a = [1", "a = {",
		"a = {b", "a = \"\\", "\"", "a = ,", ".=1", "a = {b = 1 c = 2}", "a = \"\"\"\\", "'''\n'''0"} {
		if s := scan(src); s.deep != nil {
			t.Errorf("%q: something deep was found", src)
		}
	}
}

func TestScanDoubles(t *testing.T) {
	s := scan("[a.b]\nx = 1\n[a]\n[a.b]\nx = 2\nx = 3\n[[l]]\ny = 1\n[[l]]\ny = 1\n")
	if len(s.doubles) != 2 || s.doubles[0].second.line != 4 || s.doubles[1].first.line != 5 ||
		s.doubles[1].second.line != 6 {
		t.Errorf("got %+v", s.doubles)
	}
	if len(s.lists) != 2 || s.lists[0].first.line != 7 {
		t.Errorf("got %+v", s.lists)
	}
}

func spanAt(line, column, width int) span { return span{line: line, column: column, width: width} }
