package solver

import (
	"context"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// The sources of the instances are in testdata/published/README.md.

func published(t testing.TB, name string) []string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "testdata", "published", filepath.FromSlash(name)))
	if err != nil {
		t.Fatal(err)
	}
	return strings.Fields(string(text))
}

// numbers hands out the numbers of a file one by one, times a scale.
type numbers struct {
	t      testing.TB
	fields []string
}

func (n *numbers) next(scale float64) int64 {
	n.t.Helper()
	if len(n.fields) == 0 {
		n.t.Fatal("the file ends too early")
	}
	v, err := strconv.ParseFloat(n.fields[0], 64)
	if err != nil {
		n.t.Fatal(err)
	}
	n.fields = n.fields[1:]
	return int64(math.Round(v * scale))
}

func optimum(t testing.TB, p *Problem) int64 {
	t.Helper()
	s, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	r, err := s.Solve(context.Background(), Change{}, Settings{})
	if err != nil {
		t.Fatal(err)
	}
	if r.Status != Optimal {
		t.Fatalf("status %v", r.Status)
	}
	return r.Total
}

// readGAP: one group per task, one column per agent, a capacity row per agent.
func readGAP(t testing.TB, name string, sign int64) *Problem {
	n := &numbers{t, published(t, name)}
	agents, tasks := int(n.next(1)), int(n.next(1))
	p := &Problem{Groups: make([]Group, tasks), Rows: make([]Row, agents)}
	for j := range tasks {
		p.Groups[j].Columns = make([]Column, agents)
	}
	for i := range agents {
		for j := range tasks {
			p.Groups[j].Columns[i].Cost = sign * n.next(1)
		}
	}
	for i := range agents {
		for j := range tasks {
			p.Groups[j].Columns[i].Terms = []Term{{i, n.next(1)}}
		}
	}
	for i := range agents {
		p.Rows[i].Limit = n.next(1)
	}
	return p
}

func TestGeneralizedAssignment(t *testing.T) {
	least := []int64{261, 269, 256, 274, 251}
	most := []int64{336, 327, 339, 341, 326}
	for k := range least {
		name := "gap/gap1-" + strconv.Itoa(k)
		if got := optimum(t, readGAP(t, name, 1)); got != least[k] {
			t.Errorf("%s: minimum %d, published %d", name, got, least[k])
		}
		if got := -optimum(t, readGAP(t, name, -1)); got != most[k] {
			t.Errorf("%s: maximum %d, published %d", name, got, most[k])
		}
	}
}

// readMKP: one group per item, left or taken. Values in tenths.
func readMKP(n *numbers) (*Problem, int64) {
	items, rows := int(n.next(1)), int(n.next(1))
	want := n.next(10)
	p := &Problem{Groups: make([]Group, items), Rows: make([]Row, rows)}
	for j := range items {
		p.Groups[j].Columns = []Column{{}, {Cost: -n.next(10)}}
	}
	for i := range rows {
		for j := range items {
			c := &p.Groups[j].Columns[1]
			c.Terms = append(c.Terms, Term{i, n.next(1)})
		}
	}
	for i := range rows {
		p.Rows[i].Limit = n.next(1)
	}
	return p, want
}

func TestMultidimensionalKnapsack(t *testing.T) {
	n := &numbers{t, published(t, "mkp/mknap1.txt")}
	for k := range n.next(1) {
		p, want := readMKP(n)
		if got := -optimum(t, p); got != want {
			t.Errorf("problem %d: %d tenths, published %d", k+1, got, want)
		}
	}
}

// readMMKP: one group per class; weights limited by each resource.
func readMMKP(t testing.TB, name string) *Problem {
	n := &numbers{t, published(t, name)}
	classes, options, rows := int(n.next(1)), int(n.next(1)), int(n.next(1))
	p := &Problem{Groups: make([]Group, classes), Rows: make([]Row, rows)}
	for i := range rows {
		p.Rows[i].Limit = n.next(1)
	}
	for g := range classes {
		n.next(1) // the number of the class
		for range options {
			c := Column{Cost: -n.next(1)}
			for i := range rows {
				c.Terms = append(c.Terms, Term{i, n.next(1)})
			}
			p.Groups[g].Columns = append(p.Groups[g].Columns, c)
		}
	}
	return p
}

func TestMultipleChoiceKnapsack(t *testing.T) {
	for name, want := range map[string]int64{"I01": 173, "I02": 364, "I03": 1602} {
		if got := -optimum(t, readMMKP(t, "mmkp/"+name)); got != want {
			t.Errorf("%s: %d, published %d", name, got, want)
		}
	}
}

// readBinaryMPS reads a pure 0-1 program in fixed MPS form: a group of two
// columns per variable.
func readBinaryMPS(t testing.TB, name string) *Problem {
	text, err := os.ReadFile(filepath.Join("..", "testdata", "published", name))
	if err != nil {
		t.Fatal(err)
	}
	p := &Problem{}
	rows, groups := map[string]int{}, map[string]int{}
	objective, section := "", ""
	for line := range strings.SplitSeq(string(text), "\n") {
		f := strings.Fields(line)
		if len(f) == 0 || strings.Contains(line, "'MARKER'") {
			continue
		}
		if line[0] != ' ' {
			section = f[0]
			continue
		}
		switch section {
		case "ROWS":
			if f[0] == "N" {
				objective = f[1]
				continue
			}
			rows[f[1]] = len(p.Rows)
			sense := AtMost
			if f[0] == "G" {
				sense = AtLeast
			}
			p.Rows = append(p.Rows, Row{Name: f[1], Sense: sense})
		case "COLUMNS":
			g, ok := groups[f[0]]
			if !ok {
				g = len(p.Groups)
				groups[f[0]] = g
				p.Groups = append(p.Groups, Group{Name: f[0], Columns: make([]Column, 2)})
			}
			for i := 1; i+1 < len(f); i += 2 {
				n := numbers{t, f[i+1:]}
				c := &p.Groups[g].Columns[1]
				if f[i] == objective {
					c.Cost = n.next(1)
				} else {
					c.Terms = append(c.Terms, Term{rows[f[i]], n.next(1)})
				}
			}
		case "RHS":
			for i := 1; i+1 < len(f); i += 2 {
				n := numbers{t, f[i+1:]}
				p.Rows[rows[f[i]]].Limit = n.next(1)
			}
		}
	}
	return p
}

func TestP0033(t *testing.T) {
	if got := optimum(t, readBinaryMPS(t, "p0033.mps")); got != 3089 {
		t.Errorf("%d, published 3089", got)
	}
}

func BenchmarkI03(b *testing.B) { benchmarkMMKP(b, "mmkp/I03", 1602) }

// Ten tight rows over twenty groups: hard for its size. cbc 2.10 took 12.7 s.
func BenchmarkI04(b *testing.B) { benchmarkMMKP(b, "mmkp/I04", 3597) }

func benchmarkMMKP(b *testing.B, name string, published int64) {
	p := readMMKP(b, name)
	for b.Loop() {
		if got := -optimum(b, p); got != published {
			b.Fatalf("%d, published %d", got, published)
		}
	}
}
