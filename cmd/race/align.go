package main

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// isText says whether a column holds words; those stand to the left.
func isText(head string) bool {
	return head == "family" || head == "solver" || head == "fastest other" || head == "what"
}

// writeAligned writes a table in columns two blanks apart.
func writeAligned(out io.Writer, head []string, rows [][]string) {
	width := make([]int, len(head))
	all := append([][]string{head}, rows...)
	for _, row := range all {
		for i, cell := range row {
			width[i] = max(width[i], utf8.RuneCountInString(cell))
		}
	}
	for _, row := range all {
		var b strings.Builder
		for i, cell := range row {
			pad := strings.Repeat(" ", width[i]-utf8.RuneCountInString(cell))
			if isText(head[i]) {
				b.WriteString(cell + pad + "  ")
			} else {
				b.WriteString(pad + cell + "  ")
			}
		}
		fmt.Fprintln(out, strings.TrimRight(b.String(), " "))
	}
}

// writePiped writes the same as a Markdown table.
func writePiped(out io.Writer, head []string, rows [][]string) {
	fmt.Fprintf(out, "| %s |\n|", strings.Join(head, " | "))
	for _, h := range head {
		if isText(h) {
			fmt.Fprint(out, " --- |")
		} else {
			fmt.Fprint(out, " ---: |")
		}
	}
	fmt.Fprintln(out)
	for _, row := range rows {
		fmt.Fprintf(out, "| %s |\n", strings.Join(row, " | "))
	}
}
