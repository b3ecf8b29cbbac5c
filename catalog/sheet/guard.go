package sheet

import (
	"regexp"
	"slices"
	"strings"

	"brightset/catalog"
)

const month = `(jan|feb|mar|apr|may|jun|jul|aug|sep|sept|oct|nov|dec|january|february|march|april|june|` +
	`july|august|september|october|november|december|mrz|mai|okt|dez)`

// mangled are texts that spreadsheets take for dates, times, numbers or truth
// values and write in another way. Common practice, no published source.
var mangled = regexp.MustCompile(`^(?i)(` + strings.Join([]string{
	`0\d+`, `\d{16,}`, `\d[\d.,]*[.,][\d.,]*`, `[.,]\d+`, // 007, long ones, 1.10, .5
	`\d+([.,]\d*)?e[+-]?\d+`,                        // 3E5
	`\d{1,4}([-/.:]\d{1,4}){1,3}`,                   // 1-2, 10:30
	`\d+ \d+/\d+`, `[$€£]? ?\d+([.,]\d+)? ?[%$€£]?`, // 1 1/2, $5, 5 %
	`\d{1,2}(:\d\d)?( [ap]m?|[ap]m)`,               // 3 PM
	month + ` \d{1,2},? \d{2,4}`,                   // Mar 5, 2026
	`\d{1,4}[-/. ]*` + month + `[-/. ]*(\d{1,4})?`, // 1-Feb, 1 feb 57
	month + `[-/. ]*\d{1,4}`,                       // Feb-1, MAR2
	`true|false`,
}, "|") + `)$`)

// turned are what a spreadsheet has made of an id it took for something else.
var turned = regexp.MustCompile(`^(?i)(\d{1,2}[-. ]` + month + `([-. ]\d{2,4})?|` + month +
	`[- ]\d{2,4}|\d([.,]\d+)?e\+\d+|\d{4}-\d\d-\d\d|\d{1,2}/\d{1,2}/\d{2,4})$`)

var (
	formulaErrors = []string{"#REF!", "#N/A", "#VALUE!", "#NAME?", "#DIV/0!", "#NUM!", "#NULL!"}
	plainNumber   = regexp.MustCompile(`^-?\d+([.,]\d+)?$`)
	plainWhole    = regexp.MustCompile(`^(0|[1-9]\d{0,14})$`) // stays as it is
)

// risky says whether a spreadsheet would calculate a text, or take it for
// something else, or import take it for a formula gone wrong; apostrophes and
// spaces before it aside.
func risky(text string) bool {
	text = strings.TrimLeft(text, "' ")
	if text == "" || plainWhole.MatchString(text) {
		return false
	}
	bare := strings.TrimSpace(text)
	return strings.ContainsRune("=+-@\t\r", rune(text[0])) || strings.HasPrefix(bare, "=") || mangled.MatchString(bare) ||
		isFormulaError(bare)
}

func isFormulaError(text string) bool {
	return slices.Contains(formulaErrors, strings.ToUpper(text))
}

// guard puts an apostrophe before a cell that is not safe in a spreadsheet. A
// plain number where a number belongs is.
func guard(cell string, f form) string {
	if f.isNumber() && plainNumber.MatchString(cell) || f == flag || !risky(cell) {
		return cell
	}
	return "'" + cell
}

// unguard takes the apostrophe away, and spaces around anything but free text.
// An apostrophe that guards nothing is part of the text.
func unguard(cell string, f form) string {
	if f != free {
		cell = strings.TrimSpace(cell)
	}
	if rest, ok := strings.CutPrefix(cell, "'"); ok && (risky(rest) || f.isNumber() || f == flag) {
		return rest
	}
	return cell
}

func meant(word string, known []string) string {
	if best := catalog.Closest(word, known); best != "" {
		return "did you mean \"" + best + "\"?"
	}
	return "the columns may be: " + strings.Join(known, ", ")
}
