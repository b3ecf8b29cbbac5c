package main

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"brightset/catalog"
)

// What is here compares the text of an answer with its JSON: whatever the text says as a
// sum, a share, a day, a number, or as the id or name of a thing in the files has to stand
// in the document as a value of its own. A sum counts only under a key of cents, a number
// of days only under a key of days, a grade only under one of grades, a share only as a
// number, and none of them as a word within a sentence. Only where decisions
// turn does the kind of figure say what a number is, and what is kept of an entry of the
// journal stands there as in the journal, sums in quotes.

// unsaid are the parts of a text that are no answer: marks, headings, fixed sentences, and
// how things are typed. Reasons and warnings, which are sentences in both, are taken out
// by sentences.
var unsaid = []*regexp.Regexp{
	regexp.MustCompile(`\[\d+\]`),                                  // footnotes
	regexp.MustCompile(`(?m)^\S.*\n(.*\n)?-{10,}$`),                // heads of tables
	regexp.MustCompile(`\b(1|4|9) in (5|10)\b( within)?`),          // names of quantiles
	regexp.MustCompile(`(and|which is)\s+\d+\s+more\b`),            // lists that are cut
	regexp.MustCompile(`\d+ figures? more, each worth less:[^.]*`), // likewise
	regexp.MustCompile(`triangular from -10%\s+to \+35%`),
	regexp.MustCompile(`\bof plan [0-9a-f]{4}-[0-9a-f]{4}\b`), // its name, which may look like a number
	regexp.MustCompile(`\bother \d+\b`),                       // names of plans, in their order
	regexp.MustCompile(`(?i)\bjob \d+\b`),                     // names of jobs, in their order
	regexp.MustCompile(`(?m)^\d+ jobs of one shop`),
	regexp.MustCompile(`(?m);[^;\n]*\.\.\.$`),       // a title cut at the end of a row
	regexp.MustCompile(`(?m)^[ x]*o+ +up to.*$`),    // the picture of twenty jobs: quantiles rounded up to round sums
	regexp.MustCompile(`(?s)Take care:.*?(\n\n|$)`), // the cautions, the same in every plan
	regexp.MustCompile(`(?s)What this rests on:.*`), // the sources of check --spec
	regexp.MustCompile(`(?s)to compare,\s+JIS H 8617.*?` +
		`(copper\s+and\s+nickel\s+together\s+at\s+least|chromium)\s+\S+\s+um`),
	regexp.MustCompile(`brightset [a-z]+( --[a-z-]+)*`), // what to type next
}

// sentences are the keys whose strings are whole sentences, in the text and in the JSON.
var sentences = []string{"warnings", "why", "out", "fallback_out", "text", "information", "stopped_early", "files",
	"rests_on", "what_would_replace_them", "source", "efficiency_source", "current_source"}

var (
	spaces = regexp.MustCompile(`\s+`)
	// what a plan is called by, which may look like two numbers
	planNames = regexp.MustCompile(`\bplan ([0-9a-f]{4}-[0-9a-f]{4})\b`)
	dates     = regexp.MustCompile(`\b\d{4}-\d\d-\d\d\b`)
	shares    = regexp.MustCompile(`(less than |more than |[<>])?(\d+(?:\.\d+)?) ?%`)
	money     = regexp.MustCompile(`(^|[^\w.-])-?(\d+\.\d\d)([^\w.]|\.?$|\.\s)`)
	numbers   = regexp.MustCompile(`(^|[^\w.-])[-+]?(\d+(?:\.\d+)?)([^\w]|$)`)
	ofDays    = regexp.MustCompile(`(^|[^\w.])(\d+) days?\b|\bday (\d+)\b`)
	grades    = regexp.MustCompile(`\b(?:grade|mean of|mean|fallback) (\d+(?:\.\d+)?)\b|(\d+(?:\.\d+)?) on average`)
)

// thingsOf are the ids and names of what stands in a job's files, the longest first.
func thingsOf(t *testing.T, jobs ...string) []string {
	t.Helper()
	var all []string
	add := func(list ...string) {
		for _, s := range list {
			if s != "" && s != "one" { // a piece's id, and a word of every second sentence
				all = append(all, s)
			}
		}
	}
	for _, job := range jobs {
		path, err := jobPathOf(job)
		if err != nil {
			t.Fatal(err)
		}
		st, err := catalog.Load(path, catalog.Options{Today: now()})
		if err != nil {
			t.Fatal(err)
		}
		add(st.Job.Title)
		for i := range st.Slots {
			add(st.Slots[i].ID, st.Slots[i].Name)
		}
		for i := range st.Pieces {
			add(st.PieceLabel(i), st.Pieces[i].Name)
		}
		for i := range st.Platers {
			add(st.Platers[i].ID, st.Platers[i].Name)
		}
		for i := range st.Makers {
			add(st.Makers[i].ID, st.Makers[i].Name)
		}
		for i := range st.Vendors {
			add(st.Vendors[i].ID, st.Vendors[i].Name)
		}
		for i := range st.Bundles {
			add(st.Bundles[i].ID)
		}
		for i := range st.Trades {
			add(st.Trades[i].ID)
		}
		for i := range st.Bans {
			add(st.Bans[i].ID)
		}
		for i := range st.Avenues {
			add(st.Avenues[i].Where)
		}
		for i := range st.Tables.Metals {
			if strings.Contains(st.Tables.Metals[i].Name, " ") {
				add(st.Tables.Metals[i].Name)
			}
		}
	}
	slices.SortFunc(all, func(a, b string) int {
		if len(a) != len(b) {
			return len(b) - len(a)
		}
		return strings.Compare(a, b)
	})
	return slices.Compact(all)
}

// gradeCells are the numbers that stand in columns of grades.
func gradeCells(text string) []string {
	var out []string
	var ends []int // of the heads of such columns
	lines := strings.Split(text, "\n")
	for i, line := range lines {
		if strings.HasPrefix(line, "exit ") {
			continue
		}
		if heads := regexp.MustCompile(`\b(grade|mean)(  |$)`).FindAllStringIndex(line, -1); heads != nil &&
			i+1 < len(lines) && strings.HasPrefix(lines[i+1], "-----") {
			ends = nil
			for _, h := range heads {
				ends = append(ends, len(strings.TrimRight(line[:h[1]], " ")))
			}
			continue
		}
		if strings.TrimSpace(line) == "" {
			ends = nil
		}
		for _, end := range ends {
			if len(line) < end || (len(line) > end && line[end] != ' ') {
				continue
			}
			if word := line[strings.LastIndexByte(line[:end],
				' ')+1 : end]; regexp.MustCompile(`^\d+(\.\d+)?$`).MatchString(word) {
				out = append(out, word)
			}
		}
	}
	return out
}

// answers gives the text and the document of one command.
func answers(t *testing.T, args ...string) (text, doc string) {
	t.Helper()
	code, text, errs := shared(args...)
	again, doc, more := shared(slices.Insert(slices.Clone(args), 1, "--json")...)
	if code != again || code != exitAnswered && code != exitInfeasible || text == "" || doc == "" {
		t.Fatalf("%v: exit %d and %d, %s%s", args, code, again, errs, more)
	}
	return text, doc
}

func describe(list []string) string {
	return fmt.Sprintf("%d: %s", len(list), strings.Join(list, "; "))
}
