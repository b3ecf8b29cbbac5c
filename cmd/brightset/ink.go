package main

import (
	"io"
	"os"
	"regexp"
	"strings"
)

// The colours of a terminal: amounts stand out, and what is to be minded does more.
const (
	inkAmount  = "\x1b[36m"
	inkWarning = "\x1b[33m"
	inkEnd     = "\x1b[0m"
)

var (
	amounts = regexp.MustCompile(`\b\d+\.\d\d\b`)
	// what is to be minded begins a row
	minded = regexp.MustCompile(`^(Look at|Take care:|Worth knowing:|Missing:|Nobody (does|plates)|Nothing meets|` +
		`  Mind:|Next: nothing meets)`)
)

// inked says whether an answer is coloured: somebody looks at it on a terminal that can, and
// NO_COLOR (no-color.org) doesn't forbid it.
func inked(w io.Writer) bool {
	return os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb" && terminal(w)
}

// ink colours a text, row by row; without the colours it is the same text.
func ink(text string) string {
	rows := strings.Split(text, "\n")
	for i, row := range rows {
		if minded.MatchString(row) {
			rows[i] = inkWarning + row + inkEnd
			continue
		}
		rows[i] = amounts.ReplaceAllString(row, inkAmount+"$0"+inkEnd)
	}
	return strings.Join(rows, "\n")
}
