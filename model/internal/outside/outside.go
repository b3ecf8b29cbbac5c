// Package outside asks solvers of other people's for the optimum of a program, for tests.
// Where one is not installed the test is skipped.
package outside

import (
	"os"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"brightset/model/program"
	"brightset/model/seeded"
)

// Tool finds a solver of somebody else's; without it the test is skipped.
func Tool(t *testing.T, name, pkg string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		t.Skipf("%s is not installed (apt-get install %s)", name, pkg)
	}
	return path
}

// Cbc gives its optimum of an MPS file; none for an infeasible program.
func Cbc(t *testing.T, mps string) (total float64, found bool) {
	t.Helper()
	sol := mps + ".cbc"
	out, err := exec.Command(Tool(t, "cbc", "coinor-cbc"), mps, "-ratio", "0", "-allow", "0", "-solve", "-solu", sol,
		"-quit").CombinedOutput()
	if err != nil {
		t.Fatalf("cbc: %v\n%s", err, out)
	}
	text, err := os.ReadFile(sol)
	if err != nil {
		t.Fatalf("cbc wrote no solution: %v\n%s", err, out)
	}
	first, _, _ := strings.Cut(string(text), "\n")
	if !strings.HasPrefix(first, "Optimal") {
		return 0, false
	}
	total, err = strconv.ParseFloat(first[strings.LastIndex(first, " ")+1:], 64)
	if err != nil {
		t.Fatalf("cbc: %q", first)
	}
	return total, true
}

var glpsolObjective = regexp.MustCompile(`Objective: +total = (\S+)`)

func Glpsol(t *testing.T, mps string) (total float64, found bool) {
	t.Helper()
	sol := mps + ".glp"
	out, err := exec.Command(Tool(t, "glpsol", "glpk-utils"), "--freemps", mps, "--cuts", "-o", sol).CombinedOutput()
	if err != nil {
		t.Fatalf("glpsol: %v\n%s", err, out)
	}
	text, err := os.ReadFile(sol)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(text), "INTEGER OPTIMAL") {
		return 0, false
	}
	m := glpsolObjective.FindStringSubmatch(string(text))
	if m == nil {
		t.Fatalf("glpsol: no objective in %s", text[:min(len(text), 400)])
	}
	total, err = strconv.ParseFloat(m[1], 64)
	if err != nil {
		t.Fatal(err)
	}
	return total, true
}

// Family is sized so that others can prove the program with all its lines.
func Family(slots int) seeded.Family {
	return seeded.Family{
		Name: "outside", Slots: slots, Pieces: 3, Platers: 2, Vendors: 3, Bundles: 2, Trades: 2, Matches: 1 + slots/10,
		Quotes: 0.3, Leads: 0.2, Completion: 0.8, Mean: 82, Floor: 60, Lasting: slots%2 == 0, Days: 160,
	}
}

func WriteAll(t *testing.T, p *program.Program, path string) {
	t.Helper()
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := p.Problem.WriteMPS(f); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
}
