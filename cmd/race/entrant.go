package main

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"time"
)

// state is what a solver says of its answer.
type state string

const (
	proven     state = "proven" // optimal, to within gapCents
	infeasible state = "infeasible"
	stopped    state = "stopped" // no proof within the limit
)

// gapCents is the proof asked for: nothing can be cheaper by this much. All
// totals are whole cents, so less than one is the optimum.
const gapCents = "0.99"

// outcome is one solve of one program by one solver.
type outcome struct {
	solver  string
	state   state
	claim   float64            // the total it says, cents
	values  map[string]float64 // its answer by column name; nil for none
	own     float64            // seconds it was solving
	whole   float64            // seconds of the whole process
	nodes   int64
	peakKB  int64
	failure string

	answered bool   // it gave values; the judge lets go of them
	total    int64  // of the answer, added up by the judge
	broken   string // what it breaks
	fault    string // what disqualifies the run, "" for none
}

// heat is one seeded job written out for everybody.
type heat struct {
	task   task
	dir    string
	mps    string // path
	matrix *matrix
}

// entrant is a solver that takes part.
type entrant struct {
	name    string
	missing func() string // why it can't take part, "" if it can
	version func() string
	solve   func(ctx context.Context, p *heat) *outcome
}

// entrants in the order of the tables.
var entrants = []*entrant{
	{"brightset", func() string { return "" }, brightsetVersion, solveBrightset},
	{"without-c", missingGo, runtime.Version, solveWithoutC},
	{"cbc", missingCbc, cbcVersion, solveCbc},
	{"highs", missingNative, nativeVersion, solveNative},
	{"highs-js", missingWasm, wasmVersion, solveWasm},
}

const installCommands = `apt-get update && apt-get install -y coinor-cbc python3-scipy nodejs npm
npm install -g highs
`

func entrantNamed(name string) *entrant {
	for _, e := range entrants {
		if e.name == name {
			return e
		}
	}
	return nil
}

func solverNames() []string {
	var names []string
	for _, e := range entrants {
		names = append(names, e.name)
	}
	return names
}

// brightsetVersion is what it is built with.
func brightsetVersion() string {
	clp := ask("pkg-config", "--modversion", "clp")
	if clp == "" {
		clp = "of unknown version"
	}
	return runtime.Version() + ", Clp " + clp
}

func solveBrightset(ctx context.Context, p *heat) *outcome {
	self, err := os.Executable()
	if err != nil {
		return &outcome{solver: "brightset", failure: err.Error()}
	}
	return solveBy(ctx, "brightset", self, p)
}

// missingGo says why brightset can't be built without C here.
func missingGo() string {
	if _, err := exec.LookPath("go"); err != nil {
		return "there is no Go to build it with"
	}
	return ""
}

// solveWithoutC is brightset with the engine of its own, built for the first heat that asks.
func solveWithoutC(ctx context.Context, p *heat) *outcome {
	const name = "without-c"
	program := filepath.Join(filepath.Dir(p.dir), name)
	if _, err := os.Stat(program); err != nil {
		build := exec.CommandContext(ctx, "go", "build", "-o", program, "brightset/cmd/race")
		build.Env = append(os.Environ(), "CGO_ENABLED=0")
		if text, err := build.CombinedOutput(); err != nil {
			return &outcome{solver: name, failure: firstLine(text)}
		}
	}
	return solveBy(ctx, name, program, p)
}

// solveBy has a program of this command solve what it makes of the same seed.
func solveBy(ctx context.Context, name, program string, p *heat) *outcome {
	m, r, err := brightsetSolves(ctx, program, p.task)
	o := &outcome{solver: name, state: r.State, claim: r.Total, values: r.Values, own: r.Own, nodes: r.Nodes}
	o.measure(m)
	if err != nil {
		o.failure = err.Error()
	}
	return o
}

// measure takes over what the launcher saw.
func (o *outcome) measure(m measured) {
	o.whole, o.peakKB = m.Seconds, m.PeakKB
	if m.Failure != "" {
		o.failure = strings.TrimSpace(m.Failure + " " + firstLine(m.Output))
	}
}

// patience is how long a process may take in all before it is ended: what counts
// as within the limit, and half a minute to start and to read the program.
func patience(limit time.Duration) time.Duration { return limit*21/20 + 30*time.Second }

func firstLine(b []byte) string {
	line, _, _ := strings.Cut(strings.TrimSpace(string(b)), "\n")
	return line
}

// ask runs a command that tells its version and gives the first line, trimmed.
func ask(name string, args ...string) string {
	out, err := exec.Command(name, args...).Output()
	if err != nil {
		return ""
	}
	return firstLine(out)
}

// script puts an embedded script into the temporary folder of a program.
func (p *heat) script(name, text string) (string, error) {
	path := filepath.Join(p.dir, name)
	return path, os.WriteFile(path, []byte(text), 0o644)
}
