package sheet

import (
	"regexp"
	"strings"

	"brightset/catalog"
)

// mangled are texts that spreadsheets take for dates or numbers.
var mangled = regexp.MustCompile(`^(0\d+|\d+[eE][+-]?\d+|\d{1,4}[-/.]\d{1,4}([-/.]\d{1,4})?|(?i)\d{1,2}[- ]?(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)\w*|(?i)(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*[- ]?\d{1,4}|(?i)true|(?i)false)$`)

// turned are what a spreadsheet has made of an id it took for something else.
var turned = regexp.MustCompile(`^(?i)(\d{1,2}[-. ](jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*|(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*[- ]\d{2,4}|\d[.,]\d+e\+\d+)$`)

var plainNumber = regexp.MustCompile(`^[-+]?\d+(\.\d+)?$`)

// guard puts an apostrophe before a cell that a spreadsheet would calculate, or
// take for a date or a number though it is a name.
func guard(cell string, isName bool) string {
	if cell == "" {
		return cell
	}
	if strings.ContainsRune("=+-@'\t\r", rune(cell[0])) && (isName || !plainNumber.MatchString(cell)) {
		return "'" + cell
	}
	if isName && mangled.MatchString(cell) {
		return "'" + cell
	}
	return cell
}

// unguard takes the apostrophe away.
func unguard(cell string) string {
	return strings.TrimPrefix(cell, "'")
}

func meant(word string, known []string) string {
	if best := catalog.Closest(word, known); best != "" {
		return "did you mean " + best + "?"
	}
	return "the columns may be: " + strings.Join(known, ", ")
}
