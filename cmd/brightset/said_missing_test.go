package main

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// missing lists what a text says that its document does not. things are the ids and names
// of what stands in the job's files.
func missing(text string, things []string, d *document) []string {
	for _, re := range unsaid {
		text = re.ReplaceAllStringFunc(text, blank)
	}
	graded := gradeCells(text)
	text = " " + spaces.ReplaceAllString(text, " ") + " "
	for i := range d.leaves {
		l := &d.leaves[i]
		if s := spaces.ReplaceAllString(l.text, " "); len(s) > 12 && l.under(sentences...) {
			text = strings.ReplaceAll(text, s, " ")
		}
	}
	var out []string
	lacks := func(kind, what string) {
		if one := kind + " " + what; !slices.Contains(out, one) {
			out = append(out, one)
		}
	}
	for _, s := range things {
		re := regexp.MustCompile(`(^|[^\w-])` + regexp.QuoteMeta(spaces.ReplaceAllString(s, " ")) + `([^\w-]|$)`)
		if !re.MatchString(text) {
			continue
		}
		if !d.names(s) {
			lacks("name", s)
		}
		text = re.ReplaceAllString(text, "${1} _ ${2}")
	}
	take := func(re *regexp.Regexp, say func(m []string)) {
		for _, m := range re.FindAllStringSubmatch(text, -1) {
			say(m)
		}
		text = re.ReplaceAllString(text, " _ ")
	}
	take(planNames, func(m []string) {
		if !d.names(m[1]) {
			lacks("plan", m[1])
		}
	})
	take(dates, func(m []string) {
		if !d.names(m[0]) {
			lacks("date", m[0])
		}
	})
	take(shares, func(m []string) {
		v, places := number(m[2])
		fits := func(l *leaf) bool { return !l.under("cents") }
		ok := d.has(v/100, places+2, fits)
		if m[1] != "" { // below or above what can be told
			ok = slices.ContainsFunc(d.leaves, func(l leaf) bool {
				return l.isNum && fits(&l) && (v < 50 && l.num > 0 && l.num <= v/100 || v > 50 && l.num >= v/100 && l.num < 1)
			})
		}
		if !ok {
			lacks("share", strings.TrimSpace(m[0]))
		}
	})
	both := func(re *regexp.Regexp, say func(m []string)) { // what parts one from the next is shared
		take(re, say)
		take(re, say)
	}
	both(money, func(m []string) {
		v, _ := number(m[2])
		if !d.has(math.Round(100*v), 0, func(l *leaf) bool {
			return l.under("cents") || l.key() == "now" ||
				l.key() == "last"
		}) &&
			!slices.ContainsFunc(d.leaves, func(l leaf) bool { return l.text == m[2] && l.under("changes") }) &&
			!d.has(v, 2, func(l *leaf) bool { return !l.under("cents") && l.num != math.Trunc(l.num) }) {
			lacks("sum", m[2])
		}
	})
	both(ofDays, func(m []string) {
		v, _ := number(m[2] + m[3])
		if !d.has(v, 0, func(l *leaf) bool { return l.under("day") }) {
			lacks("days", strings.TrimSpace(m[0]))
		}
	})
	grade := func(s string) {
		v, places := number(s)
		if !d.has(v, places, func(l *leaf) bool {
			return l.under("grade", "mean", "floor", "now", "last") &&
				!l.under("cents")
		}) {
			lacks("grade", s)
		}
	}
	take(grades, func(m []string) { grade(m[1] + m[2]) })
	for _, s := range graded {
		grade(s)
	}
	both(numbers, func(m []string) {
		v, places := number(m[2])
		if !d.has(v, places, func(l *leaf) bool { return !l.under("cents") }) {
			lacks("number", m[2])
		}
	})
	return out
}

func number(s string) (v float64, places int) {
	v, _ = strconv.ParseFloat(s, 64)
	if dot := strings.IndexByte(s, '.'); dot >= 0 {
		places = len(s) - dot - 1
	}
	return v, places
}

// blank keeps the width and the lines of what is taken out, and rules of tables.
func blank(s string) string {
	return strings.Map(func(r rune) rune {
		if r == '\n' {
			return r
		}
		return ' '
	}, s)
}
