package main

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"runtime"
	"strings"
	"time"
)

// cpuModel is the processor's name as the system gives it.
func cpuModel() string {
	f, err := os.Open("/proc/cpuinfo")
	if err != nil {
		return "unknown processor"
	}
	defer f.Close()
	scan := bufio.NewScanner(f)
	for scan.Scan() {
		if key, value, ok := strings.Cut(scan.Text(), ":"); ok && strings.TrimSpace(key) == "model name" {
			return strings.TrimSpace(value)
		}
	}
	return "unknown processor"
}

// writeMachine says when, where and with which versions a result was made.
func writeMachine(out io.Writer, field []*entrant) {
	fmt.Fprintf(out, "- %s, %d cores, %s, %s/%s\n", time.Now().Format(time.DateOnly), runtime.NumCPU(), cpuModel(),
		runtime.GOOS, runtime.GOARCH)
	for _, e := range field {
		fmt.Fprintf(out, "- %s: %s\n", e.name, e.version())
	}
}

// writeFile makes a file of what write puts into it.
func writeFile(path string, write func(io.Writer)) error {
	f, err := os.Create(path)
	if err != nil {
		return err
	}
	write(f)
	return f.Close()
}
