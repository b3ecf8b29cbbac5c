package main

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"time"
)

// told runs the program in the folder of a copy of the demo job, so that it does not show
// where that lies, and writes down what was typed and said.
func told(t *testing.T, b *strings.Builder, dir string, args ...string) {
	t.Helper()
	top, err := os.Getwd()
	if err == nil {
		err = os.Chdir(dir)
	}
	if err != nil {
		t.Fatal(err)
	}
	defer os.Chdir(top)
	typed := make([]string, len(args))
	for i, a := range args {
		if typed[i] = a; strings.Contains(a, " ") {
			typed[i] = "'" + a + "'"
		}
	}
	code, out, errs := brightset(args...)
	fmt.Fprintf(b, "$ brightset %s\n%s%s", strings.Join(typed, " "), out, errs)
	if code != 0 {
		fmt.Fprintf(b, "exit %d\n", code)
	}
	b.WriteString("\n")
}

func demoCopy(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("testdata/demo")); err != nil {
		t.Fatal(err)
	}
	return dir
}

// TestRecordGolden tells a story from sent to hung, and shows what is said of typical
// mistakes on the way.
func TestRecordGolden(t *testing.T) {
	defer func(was func() time.Time) { now = was }(now)
	now = func() time.Time { return time.Date(2031, 5, 1, 9, 0, 0, 0, time.UTC) }
	stories := map[string][][]string{
		"record-story": {
			{"record", "sent", "crest-2,drawer-grille", "--to", "pell", "--on", "2031-02-01"},
			{"record", "sent", "bullet-1", "--to", "brackwater", "--level", "driver", "--on", "2031-02-03"},
			{"record", "stripped", "bullet-1", "--defect", "pits", "--severity", "severe", "--on", "2031-02-10"},
			{"record", "priced", "bullet-1", "--cost", "118.00", "--on", "2031-02-10"},
			{"record", "recalled", "bullet-1", "--on", "2031-02-11"},
			{"record", "refused", "drawer-grille", "--on", "2031-02-15"},
			{"record", "priced", "crest-2", "--cost", "140.00", "--on", "2031-02-16"},
			{"record", "approved", "crest-2", "--on", "2031-02-17"},
			{"record", "back", "crest-2", "--grade", "93", "--cost", "150.00", "--on", "2031-04-20"},
			{"record", "back", "crest-2", "--grade", "93", "--cost", "150.00", "--anyway", "--on", "2031-04-20"},
			{"record", "hung", "crest-2", "--on", "2031-04-22"},
			{"record", "bought", "boxed-spears", "--freight", "24.00", "--on", "2031-04-23"},
			{"record", "bought", "arm-stall", "--from", "stall at the harbour", "--price", "40", "--fits", "mirror-arm",
				"--kind",
				"original", "--metal", "brass", "--grade", "76", "--on", "2031-04-23"},
			{"record", "failed", "crest-friend", "--on", "2031-04-24"},
			{"record", "traded", "vents", "--on", "2031-04-24"},
			{"record", "lock", "bezel-speed", "--piece", "bezel-s1", "--reason", "straight before the eyes", "--on",
				"2031-04-24"},
			{"record", "ban", "crank-repro", "--slot", "crank-left", "--on", "2031-04-24"},
			{"record", "unban", "crank-repro", "--on", "2031-04-25"},
			{"record", "spent", "a can of wax", "--cost", "12.00", "--on", "2031-04-25"},
			{"record", "note", "the owner rang", "--on", "2031-04-26"},
			{"record", "list"},
			{"record", "undo"},
			{"record", "undo"},
			{"record", "redo"},
			{"record", "list", "--json"},
		},
		"record-mistakes": {
			{"record", "sent", "crst-2", "--to", "pell"},
			{"record", "sent", "bullet-1", "--to", "brackwater"},
			{"record", "sent", "crank-1", "--to", "brackwater"},
			{"record", "back", "crest-2"},
			{"record", "sent", "crest-2", "--to", "pell"},
			{"record", "hung", "crest-2"},
			{"record", "sent", "crest-1", "--to", "brackwater", "--level", "driver", "--slot", "crest"},
			{"record", "bought", "arm-9"},
			{"record", "priced", "crest-2", "--cost", "150,00"},
			{"record", "back", "crest-2", "--grade", "nise"},
			{"record", "hung", "arm-1", "--slot", "crest"},
			{"record", "lost", "screws-old", "--count", "20"},
			{"record", "graded", "arm-1", "--grade", ""},
			{"record", "undo", "--reason", "a slip"},
			{"record", "redo"},
			{"record", "list"},
		},
	}
	for name, story := range stories {
		t.Run(name, func(t *testing.T) {
			dir := demoCopy(t)
			var b strings.Builder
			for _, args := range story {
				told(t, &b, dir, args...)
			}
			sameAsGolden(t, name, b.String())
		})
	}
}

// TestRecordEdited: files edited after something was recorded are told of by check, with
// the line of the journal; what can't be read any more can be taken back.
func TestRecordEdited(t *testing.T) {
	dir := demoCopy(t)
	edit := func(old, new string) {
		text, err := os.ReadFile(dir + "/job.toml")
		if err != nil || !strings.Contains(string(text), old) {
			t.Fatal(err, old)
		}
		if err := os.WriteFile(dir+"/job.toml", []byte(strings.ReplaceAll(string(text), old, new)), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	var b strings.Builder
	told(t, &b, dir, "record", "graded", "bezel-c2", "--grade", "90")
	edit("grade = 82\ntone = 0.8", "grade = 70\ntone = 0.8")
	told(t, &b, dir, "check", "--slot", "bezel-clock")
	told(t, &b, dir, "record", "lock", "crank-left", "--piece", "crank-2")
	edit("[piece.crank-2", "[piece.crank-9")
	told(t, &b, dir, "check", "--slot", "crank-left")
	told(t, &b, dir, "record", "undo")
	told(t, &b, dir, "record", "list")
	sameAsGolden(t, "record-edited", b.String())
}
