package catalog

import "fmt"

// Source says what kind of place a value came from. The order is the order of
// trust: what counts is the highest.
type Source int

const (
	StartingValue Source = iota // the built-in trade tables: no published source
	Learned                     // an included file, usually learned.toml
	ShopTable                   // the shop's file
	JobFile                     // the job's file
	Quoted                      // a plater's quote
	Recorded                    // an entry of the journal
)

// Origin is where a value was written: a file and a line, or a journal entry.
type Origin struct {
	Source Source
	File   string
	Line   int
	Column int
}

// String gives FILE:LINE, or "starting value" for the built-in tables.
func (o Origin) String() string {
	if o.Source == StartingValue {
		return "starting value"
	}
	return fmt.Sprintf("%s:%d", o.File, o.Line)
}

// Val is a value together with where it came from. Set is false where nobody
// gave it; V is then the zero value and must not be used.
type Val[T any] struct {
	V    T
	Set  bool
	From Origin
}

// Or returns the value, or other where it was not given.
func (v Val[T]) Or(other T) T {
	if v.Set {
		return v.V
	}
	return other
}
