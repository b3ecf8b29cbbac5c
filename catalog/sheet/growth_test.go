package sheet

import (
	"fmt"
	"runtime"
	"strings"
	"testing"
)

// taken is how many bytes of memory are asked for while something runs.
func taken(do func()) uint64 {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	do()
	runtime.ReadMemStats(&after)
	return after.TotalAlloc - before.TotalAlloc
}

// What a table takes in memory goes by what is in it, not by its size: rows and cells
// that are empty take nothing.
func TestEmptyRowsTakeNoMemory(t *testing.T) {
	const head, size = "id,fits,kind,metal\n", 1 << 20
	for name, tail := range map[string]string{"rows": "\n", "cells": ",", "spaced rows": " \r\n"} {
		data := []byte(head + strings.Repeat(tail, size/len(tail)))
		if n := taken(func() { read(data, Pieces, Reading{}) }); n > 4*size {
			t.Errorf("%s: %d bytes for a file of %d", name, n, size)
		}
	}
}

// Of a file that is no table at all only so much is looked at and told.
func TestTooManyProblems(t *testing.T) {
	for name, row := range map[string]string{"short rows": "a\n", "stray quotes": "\"a\"b\n", "beyond": "a,b,c,d" +
		strings.Repeat(",e", 150) + "\n"} {
		_, problems := read([]byte("id,fits,kind,metal\n"+strings.Repeat(row, 20_000)), Pieces, Reading{})
		if len(problems) < MostProblems || len(problems) > MostProblems+MostColumns+1 {
			t.Errorf("%s: %d problems", name, len(problems))
		}
		if got := problems[0].Message; got != "there are more than 1000 problems" {
			t.Errorf("%s: told first: %s", name, got)
		}
	}
}

func TestTooManyColumns(t *testing.T) {
	head := "id,fits,kind,metal" + strings.Repeat(",x", 100_000)
	_, _, err := importText(t, head+"\np1,grille,original,brass", Pieces)
	if want := "row 1: there are more than 200 columns; the columns may be: " + strings.Join(Columns(Pieces),
		", "); all(err) != want {
		t.Errorf("got\n%s\nwant\n%s", all(err), want)
	}
	empty := strings.Repeat(",", 16_380) // a spreadsheet that writes every column it has
	if _, _, err := importText(t, "id,fits,kind,metal"+empty+"\np1,grille,original,brass"+empty+"\n", Pieces); err != nil {
		t.Error(all(err))
	}
	_, _, err = importText(t, "id,fits,kind,metal\np1,grille,original,brass"+empty+"lost", Pieces)
	if want := "row 2: there are more than 200 columns"; !strings.HasPrefix(all(err), want) {
		t.Errorf("got\n%s\nwant\n%s", all(err), want)
	}
}

// Rows that share a piece and a defect get numbers, and a number in use is passed over.
func TestNumbersOfNames(t *testing.T) {
	tab := &table{rows: []row{{cells: map[string]string{"piece": "old", "id": "haze-3"}}}}
	n := newNames(tab, Findings)
	var got []string
	for range 4 {
		got = append(got, n.of(row{cells: map[string]string{"piece": "old", "defect": "haze"}}))
	}
	if fmt.Sprint(got) != "[haze haze-2 haze-4 haze-5]" {
		t.Error(got)
	}
}
