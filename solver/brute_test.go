package solver

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// bruteForce goes through every pick and every setting of voluntary switches
// and judges each with Evaluate.
func bruteForce(p *Problem, ch Change) (total int64, found bool) {
	var vol []int
	for h := range p.Switches {
		if p.Switches[h].Voluntary {
			vol = append(vol, h)
		}
	}
	fixed := map[int]int{}
	for _, f := range ch.Fix {
		fixed[f.Group] = f.Column
	}
	pick := make([]int, len(p.Groups))
	var walk func(g int)
	walk = func(g int) {
		if g == len(pick) {
			for mask := range 1 << len(vol) {
				on := make([]bool, len(p.Switches))
				for i, h := range vol {
					on[h] = mask>>i&1 == 1
				}
				if o := p.Evaluate(pick, on, ch); len(o.Broken) == 0 && (!found || o.Total < total) {
					total, found = o.Total, true
				}
			}
			return
		}
		for c := range p.Groups[g].Columns {
			banned := false
			for _, b := range ch.Ban {
				banned = banned || b == Pick{g, c}
			}
			if f, ok := fixed[g]; banned || (ok && f != c) {
				continue
			}
			pick[g] = c
			walk(g + 1)
		}
	}
	walk(0)
	return total, found
}

func TestBruteForce(t *testing.T) {
	feasible := 0
	for seed := range uint64(2500) {
		r := rand.New(rand.NewPCG(seed, 1))
		p := randomProblem(r, 1+r.IntN(6), 5)
		s, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		for range 3 {
			ch := Change{}
			if r.IntN(3) > 0 {
				ch = randomChange(r, p)
			}
			got, err := s.Solve(context.Background(), ch, Settings{})
			if err != nil {
				t.Fatalf("seed %d: %v", seed, err)
			}
			want, found := bruteForce(p, ch)
			if found {
				feasible++
			}
			if got.Has != found || (found && (got.Total != want || got.Status != Optimal)) ||
				(!found && got.Status != Infeasible) {
				t.Fatalf("seed %d, change %+v: got %v %v total %d, brute force %v %d", seed, ch, got.Status, got.Has, got.Total,
					found, want)
			}
		}
	}
	if feasible < 1000 {
		t.Errorf("only %d of the problems had a solution", feasible)
	}
}

// outside runs cbc on a problem and returns its optimum.
func outside(t *testing.T, p *Problem) (total float64, found bool) {
	t.Helper()
	path, err := exec.LookPath("cbc")
	if err != nil {
		t.Skip("cbc is not installed (apt-get install coinor-cbc)")
	}
	dir := t.TempDir()
	f, err := os.Create(filepath.Join(dir, "p.mps"))
	if err != nil {
		t.Fatal(err)
	}
	if err := p.WriteMPS(f); err != nil {
		t.Fatal(err)
	}
	f.Close()
	sol := filepath.Join(dir, "p.sol")
	out, err := exec.Command(path, f.Name(), "-ratio", "0", "-allow", "0", "-sec", "300", "-solve", "-solu", sol,
		"-quit").CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	text, err := os.ReadFile(sol)
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	first, _, _ := strings.Cut(string(text), "\n")
	if !strings.HasPrefix(first, "Optimal") {
		return 0, false
	}
	if _, err := fmt.Sscanf(first[strings.LastIndex(first, "value")+5:], "%g", &total); err != nil {
		t.Fatalf("%q: %v", first, err)
	}
	return total, true
}

func TestOutsideSolver(t *testing.T) {
	for seed := range uint64(25) {
		r := rand.New(rand.NewPCG(seed, 2))
		p := randomProblem(r, 4+r.IntN(12), 12)
		s, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		got, err := s.Solve(context.Background(), Change{}, Settings{})
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		want, found := outside(t, p)
		if got.Has != found || (found && float64(got.Total) != want) {
			t.Errorf("seed %d: got %v %d, cbc %v %v", seed, got.Status, got.Total, found, want)
		}
	}
}
