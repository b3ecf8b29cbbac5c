package catalog

import (
	"fmt"
	"strings"
)

// Mistake is one thing in a file that has to be put right before anything can
// be calculated.
type Mistake struct {
	File    string // as the user would name it
	Line    int    // from 1; 0 where the file as a whole is meant
	Column  int    // from 1, in characters
	Width   int    // characters concerned, at least 1
	Message string // what is wrong
	Hint    string // what to write or do instead; may be empty
	Text    string // the line of the file; empty if there is none or it is very long
}

// String gives FILE:LINE:COLUMN: message, the line, a caret under the place and
// the hint, each on a line of its own, without a newline at the end.
func (m Mistake) String() string {
	var b strings.Builder
	if m.Line == 0 {
		fmt.Fprintf(&b, "%s: %s", harmless(m.File), m.Message)
	} else {
		fmt.Fprintf(&b, "%s:%d:%d: %s", harmless(m.File), m.Line, m.Column, m.Message)
	}
	if text, caret := excerpt(m.Text, m.Column, m.Width); strings.TrimSpace(text) != "" {
		fmt.Fprintf(&b, "\n    %s\n    %s", text, caret)
	}
	if m.Hint != "" {
		fmt.Fprintf(&b, "\n    %s", m.Hint)
	}
	return b.String()
}

// Mistakes are all mistakes of one load, the job's file before the shop's and
// included ones, each in the order of its lines.
type Mistakes struct{ List []Mistake }

// Error prints the mistakes one after the other with an empty line between
// them; of a great many it prints the first 200 and the number of the others.
func (m *Mistakes) Error() string {
	var b strings.Builder
	for i, one := range m.List {
		if i == maxShown {
			fmt.Fprintf(&b, "\n\nand %d more", len(m.List)-maxShown)
			break
		}
		if i > 0 {
			b.WriteString("\n\n")
		}
		b.WriteString(one.String())
	}
	return b.String()
}

// BadValue is the error of the parsers of single values.
type BadValue struct {
	Message string // what is wrong
	Hint    string // what to write instead
}

// Error gives the message and the hint.
func (e *BadValue) Error() string {
	if e.Hint == "" {
		return e.Message
	}
	return e.Message + "; " + e.Hint
}

func bad(hint, format string, args ...any) *BadValue {
	return &BadValue{Message: fmt.Sprintf(format, args...), Hint: hint}
}
