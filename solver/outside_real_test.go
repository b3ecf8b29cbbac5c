package solver

import (
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"brightset/testdata/campaign"
)

// modest draws problems of numbers that a solver working in floats can tell apart: of
// 2^53 and one less it can't.
func modest(r *rand.Rand) *Problem {
	for {
		p := realProblem(r, 3+r.IntN(8), 8)
		if p.largest() <= 15_000_000 {
			return p
		}
	}
}

// largest is the largest absolute value of a number of the problem, aside from ties.
func (p *Problem) largest() int64 {
	v := int64(0)
	see := func(list []Term) {
		for _, t := range list {
			v = max(v, magnitude(t.Coef))
		}
	}
	for h := range p.Switches {
		v = max(v, magnitude(p.Switches[h].Fixed), p.Switches[h].Minimum)
		see(p.Switches[h].Terms)
	}
	for g := range p.Groups {
		for c := range p.Groups[g].Columns {
			k := &p.Groups[g].Columns[c]
			v = max(v, magnitude(k.Cost))
			see(k.Terms)
			for _, l := range k.Loads {
				v = max(v, l.Amount)
			}
		}
	}
	for i := range p.WithinTolerance {
		v = max(v, p.WithinTolerance[i].Tolerance)
	}
	return v
}

// TestOutsideRealSizes: two solvers from outside, given the program as it is written
// for them, come to the same total. Both work in floats and take what is broken by a
// millionth of a row's size for met, so an answer of theirs that is cheaper counts only
// if it breaks nothing in integers.
func TestOutsideRealSizes(t *testing.T) {
	cases, feasible := campaign.Cases(16, 3_000), 0
	for seed := range uint64(cases) {
		p := modest(rand.New(rand.NewPCG(seed, 32)))
		s, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		got, err := s.Solve(t.Context(), Change{}, Settings{Goroutines: 1})
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if got.Has {
			feasible++
		}
		cbc := seed%2 == 0
		if err := p.judgedOutside(t, &got, cbc); err != nil { // one of them alone may be wrong
			if other := p.judgedOutside(t, &got, !cbc); other != nil {
				t.Errorf("seed %d: %v; %v", seed, err, other)
			} else {
				t.Logf("seed %d: %v, and the other agrees with us", seed, err)
			}
		}
	}
	t.Logf("%d programs, %d with a solution", cases, feasible)
	if feasible < cases/5 {
		t.Errorf("only %d of %d have a solution", feasible, cases)
	}
}

// TestNeededOrOffOutside: a switch that earns is on only if something needs it, for a
// solver from outside, too.
func TestNeededOrOffOutside(t *testing.T) {
	p := &Problem{
		Switches: []Switch{{Name: "earns", Fixed: -50}},
		Groups:   []Group{{Columns: []Column{{Cost: 60, Needs: []int{0}}, {Cost: 15}}}},
	}
	if got, found := outside(t, p); !found || got != 10 {
		t.Errorf("%v %v, the least is 10", found, got)
	}
}

// judgedOutside compares an answer with that of cbc, or of glpsol.
func (p *Problem) judgedOutside(t *testing.T, got *Result, cbc bool) error {
	t.Helper()
	name, found, pick, on := p.outsidePick(t, cbc)
	switch {
	case !found && !got.Has:
		return nil
	case !found:
		return fmt.Errorf("%s finds nothing, %d is possible", name, got.Total)
	}
	o := p.Evaluate(pick, on, Change{})
	if len(o.Broken) > 0 && (!got.Has || o.Total < got.Total) {
		t.Logf("%s breaks %q by a hair: judged no further", name, o.Broken)
		return nil
	}
	if !got.Has || o.Total != got.Total {
		return fmt.Errorf("%v %d in hand %v, %s %d", got.Status, got.Total, got.Has, name, o.Total)
	}
	return nil
}

// outsidePick runs a solver on a problem and reads the columns it picks, and the
// switches it turns on.
func (p *Problem) outsidePick(t *testing.T, cbc bool) (name string, found bool, pick []int, on []bool) {
	t.Helper()
	name = map[bool]string{true: "cbc", false: "glpsol"}[cbc]
	path, err := exec.LookPath(name)
	if err != nil {
		t.Skip(name + " is not installed")
	}
	dir := t.TempDir()
	in, out := filepath.Join(dir, "p.mps"), filepath.Join(dir, "p.sol")
	f, err := os.Create(in)
	if err != nil {
		t.Fatal(err)
	}
	if err := p.WriteMPS(f); err != nil {
		t.Fatal(err)
	}
	f.Close()
	args := []string{"--freemps", in, "--mipgap", "0", "--tmlim", "60", "-w", out}
	if cbc {
		args = []string{in, "-ratio", "0", "-allow", "0", "-primalT", "1e-9", "-integerT", "1e-9", "-sec", "60", "-solve",
			"-solu", out, "-quit"}
	}
	if text, err := exec.Command(path, args...).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	text, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	value := map[string]float64{}
	if cbc {
		found = readCBC(string(text), value)
	} else {
		found = readGLPK(string(text), columnNames(t, in), value)
	}
	pick, on = make([]int, len(p.Groups)), make([]bool, len(p.Switches))
	for g := range pick {
		for c := range p.Groups[g].Columns {
			if value[fmt.Sprintf("x%d_%d", g, c)] > 0.5 {
				pick[g] = c
			}
		}
	}
	for h := range on {
		on[h] = value[fmt.Sprintf("y%d", h)] > 0.5
	}
	return name, found, pick, on
}

// readCBC reads lines of place, name, value and cost; a first line says what they are.
func readCBC(text string, value map[string]float64) bool {
	first, rest, _ := strings.Cut(text, "\n")
	for _, line := range strings.Split(rest, "\n") {
		w := strings.Fields(strings.TrimPrefix(strings.TrimSpace(line), "**"))
		if len(w) >= 3 {
			v := 0.0
			fmt.Sscan(w[2], &v)
			value[w[1]] = v
		}
	}
	return strings.HasPrefix(first, "Optimal")
}

// columnNames are the columns of a program as it is written, in their order.
func columnNames(t *testing.T, path string) (names []string) {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(text), "COLUMNS\n")
	columns, _, _ := strings.Cut(rest, "RHS\n")
	for _, line := range strings.Split(columns, "\n") {
		if w := strings.Fields(line); len(w) == 3 && w[1] != "'MARKER'" && (len(names) == 0 || names[len(names)-1] != w[0]) {
			names = append(names, w[0])
		}
	}
	return names
}

// readGLPK reads lines "j place value", the columns in the order they are written in.
func readGLPK(text string, names []string, value map[string]float64) bool {
	found := false
	for _, line := range strings.Split(text, "\n") {
		w := strings.Fields(line)
		if len(w) > 4 && w[0] == "s" {
			found = w[4] == "o"
		}
		if len(w) == 3 && w[0] == "j" {
			at, v := 0, 0.0
			fmt.Sscan(w[1], &at)
			fmt.Sscan(w[2], &v)
			value[names[at-1]] = v
		}
	}
	return found
}
