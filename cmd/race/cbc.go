package main

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
)

func missingCbc() string {
	if _, err := exec.LookPath("cbc"); err != nil {
		return "there is no cbc on this machine"
	}
	return ""
}

func cbcVersion() string {
	out, _ := exec.Command("cbc", "-quit").Output()
	return find(out, cbcVersionLine)
}

var (
	cbcVersionLine = regexp.MustCompile(`Version: *(\S+)`)
	cbcNodes       = regexp.MustCompile(`Enumerated nodes: *(\d+)`)
	cbcSeconds     = regexp.MustCompile(`Total time \(CPU seconds\): *\S+ *\(Wallclock seconds\): *(\S+)`)
)

// solveCbc: -ratio 0 because its relative gap must not end it; the limit counts
// wall clock like everybody's.
func solveCbc(ctx context.Context, p *heat) *outcome {
	solution := filepath.Join(p.dir, "cbc.txt")
	args := []string{"cbc", p.mps, "-timeMode", "elapsed", "-sec", seconds(p), "-ratio", "0", "-allow", gapCents}
	if p.task.Threads > 1 {
		args = append(args, "-threads", strconv.Itoa(p.task.Threads))
	}
	m := launch(ctx, patience(p.task.Limit), nil, append(args, "-solve", "-solu", solution, "-quit")...)
	o := &outcome{solver: "cbc", state: stopped}
	o.measure(m)
	if o.failure != "" {
		return o
	}
	o.own, _ = strconv.ParseFloat(find(m.Output, cbcSeconds), 64)
	o.nodes, _ = strconv.ParseInt(find(m.Output, cbcNodes), 10, 64)
	text, err := os.ReadFile(solution)
	if err != nil {
		o.failure = "it wrote no solution"
		return o
	}
	if err := o.readCbc(string(text)); err != nil {
		o.failure = err.Error()
	}
	return o
}

// readCbc reads its solution: a line of status, then number, name, value and
// reduced cost of every column that is not zero; "**" marks what breaks a bound.
func (o *outcome) readCbc(text string) error {
	first, rest, _ := strings.Cut(text, "\n")
	switch {
	case strings.HasPrefix(first, "Optimal"):
		o.state = proven
	case strings.HasPrefix(first, "Infeasible"), strings.HasPrefix(first, "Integer infeasible"):
		o.state = infeasible
		return nil
	case strings.Contains(first, "no integer solution"):
		return nil
	}
	words := strings.Fields(first)
	if len(words) == 0 {
		return fmt.Errorf("its solution is empty")
	}
	var err error
	if o.claim, err = strconv.ParseFloat(words[len(words)-1], 64); err != nil {
		return fmt.Errorf("its status %q is not understood", first)
	}
	o.values = map[string]float64{}
	for line := range strings.Lines(rest) {
		f := strings.Fields(strings.TrimPrefix(strings.TrimSpace(line), "**"))
		if len(f) != 4 {
			continue
		}
		if o.values[f[1]], err = strconv.ParseFloat(f[2], 64); err != nil {
			return fmt.Errorf("its line %q is not understood", line)
		}
	}
	return nil
}

func find(out []byte, re *regexp.Regexp) string {
	if m := re.FindSubmatch(out); m != nil {
		return string(m[1])
	}
	return ""
}

func seconds(p *heat) string { return fmt.Sprintf("%g", p.task.Limit.Seconds()) }
