package main

import (
	"context"
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/program"
	"brightset/solver"
)

// TestBenchPapersNamed: the page lists every sheet that it has when it is opened, the quote to the owner too.
func TestBenchPapersNamed(t *testing.T) {
	st, err := catalog.Load("testdata/demo/job.toml", catalog.Options{Today: now()})
	if err != nil {
		t.Fatal(err)
	}
	pl, err := program.Solve(context.Background(), st, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	var names [2][]string
	for i, whole := range []bool{false, true} {
		papers, err := benchPapers(context.Background(), st, pl, whole)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range papers.Pages() {
			names[i] = append(names[i], p.Name)
		}
	}
	if !slices.Equal(names[0], names[1]) || !slices.Contains(names[0], "quote") {
		t.Errorf("%v are listed, %v are there", names[0], names[1])
	}
}
