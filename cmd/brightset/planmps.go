package main

import (
	"fmt"

	"brightset/catalog"
	"brightset/catalog/disk"
	"brightset/model/program"
)

// mpsMark is how a program written by --mps begins.
const mpsMark = "NAME brightset FREE\n"

// writeProgram writes the integer program, with all lines before any is left
// out, to a file or with "-" as the answer.
func writeProgram(c *call, st *catalog.State, path string) error {
	if path == "-" {
		if err := program.BuildAll(st).Problem.WriteMPS(c.out); err != nil {
			return fmt.Errorf("can't write the answer: %w", err)
		}
		return nil
	}
	if err := disk.Answer(path); err != nil {
		return usageError{err.Error() + "; type: --mps program.mps"}
	}
	return disk.ReplaceBy(path, mpsMark, program.BuildAll(st).Problem.WriteMPS)
}
