package main

import (
	"context"
	_ "embed"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
)

//go:embed highs.py
var nativeScript string

//go:embed highs.js
var wasmScript string

// python is Debian's own: the one that its python3-scipy belongs to.
const python = "/usr/bin/python3"

func missingNative() string {
	if nativeVersion() == "" {
		return "there is no scipy for " + python
	}
	return ""
}

var highsVersion = regexp.MustCompile(`HiGHS (\d\S*)`)

// nativeVersion is what HiGHS says of itself when it starts, and scipy's own.
func nativeVersion() string {
	out, err := exec.Command(python, "-c", `import scipy
from scipy.optimize import milp
print("scipy", scipy.__version__, end=", ", flush=True)
milp([1], integrality=[1], options={"disp": True})`).Output()
	if err != nil {
		return ""
	}
	scipy, _, _ := strings.Cut(string(out), ",")
	return "HiGHS " + find(out, highsVersion) + ", native, " + scipy
}

func missingWasm() string {
	if wasmVersion() == "" {
		return "there is no node, or no npm package highs"
	}
	return ""
}

func wasmVersion() string {
	cmd := exec.Command("node", "-e",
		`require("highs")().then((h) =>
		console.log("HiGHS " + h.version.string + ", WebAssembly, node " + process.version))`)
	cmd.Env = append(os.Environ(), nodePath())
	out, err := cmd.Output()
	if err != nil {
		return ""
	}
	return firstLine(out)
}

// nodePath lets node find packages installed here or for everybody.
var nodePath = sync.OnceValue(func() string {
	path := os.Getenv("NODE_PATH")
	for _, more := range []string{"node_modules", ask("npm", "root", "-g")} {
		if full, err := filepath.Abs(more); more != "" && err == nil {
			path += string(os.PathListSeparator) + full
		}
	}
	return "NODE_PATH=" + path
})

// solveNative: scipy hands on no absolute gap; HiGHS's own default is far below
// a cent, so the relative one is set to 0.
func solveNative(ctx context.Context, p *heat) *outcome {
	data := filepath.Join(p.dir, "program.bin")
	script, err := p.script("highs.py", nativeScript)
	if err == nil {
		err = p.matrix.writeBinary(data)
	}
	if err != nil {
		return &outcome{solver: "highs", failure: err.Error()}
	}
	return p.runScript(ctx, "highs", nil, python, script, data, seconds(p))
}

func solveWasm(ctx context.Context, p *heat) *outcome {
	script, err := p.script("highs.js", wasmScript)
	if err != nil {
		return &outcome{solver: "highs-js", failure: err.Error()}
	}
	return p.runScript(ctx, "highs-js", []string{nodePath()}, "node", "--max-old-space-size=8192", script, p.mps,
		seconds(p), gapCents)
}

// scriptAnswer is what both scripts write.
type scriptAnswer struct {
	State   string
	Message string
	Own     float64
	Total   *float64
	Nodes   int64
	X       []float64 // in the order of the columns
}

// runScript runs one; the file for its answer is its last argument.
func (p *heat) runScript(ctx context.Context, solver string, environment []string, command ...string) *outcome {
	file := filepath.Join(p.dir, solver+".json")
	o := &outcome{solver: solver, state: stopped}
	o.measure(launch(ctx, patience(p.task.Limit), environment, append(command, file)...))
	if o.failure != "" {
		return o
	}
	text, err := os.ReadFile(file)
	if err != nil {
		o.failure = err.Error()
		return o
	}
	var a scriptAnswer
	if err := json.Unmarshal(text, &a); err != nil {
		o.failure = err.Error()
		return o
	}
	if err := o.take(&a, p.matrix); err != nil {
		o.failure = err.Error()
	}
	return o
}

func (o *outcome) take(a *scriptAnswer, m *matrix) error {
	o.state, o.own, o.nodes = state(a.State), a.Own, a.Nodes
	if a.State == "failed" {
		return fmt.Errorf("%s", a.Message)
	}
	if a.Total == nil || a.X == nil {
		return nil
	}
	if len(a.X) != len(m.columns) {
		return fmt.Errorf("it gives %d values for %d columns", len(a.X), len(m.columns))
	}
	o.claim, o.values = *a.Total, map[string]float64{}
	for i, v := range a.X {
		o.values[m.columns[i].name] = v
	}
	return nil
}
