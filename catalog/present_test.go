package catalog

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"brightset/catalog/event"
)

// TestPresent: what was opened before is given again where nothing has changed, and never where anything has that
// the state depends on, be it as long as before and written in the same tick of the clock.
func TestPresent(t *testing.T) {
	const job = `include = ["more.toml"]
[job]
title = "boat"
shop = "shop.toml"
[slot.a]
[piece.p]
fits = ["a"]
kind = "original"
metal = "brass"
photos = ["front.jpg", "gone.jpg"]
[piece.p.quote.q]
plater = "north"
cost = "90.00"
grade = 80
date = 2031-01-20
`
	inFolder(t, map[string]string{"job.toml": job, "front.jpg": "x", "more.toml": "[piece.m]\nfits = [\"a\"]\n" +
		"kind = \"original\"\nmetal = \"brass\"\ngrade = 50\n", "shop.toml": "[plater.north]\nname = \"north\"\n" +
		"[piece.d]\nfits = [\"a\"]\nkind = \"original\"\nmetal = \"brass\"\ngrade = 51\n"})
	today := time.Date(2031, 2, 1, 9, 0, 0, 0, time.UTC)
	var known Known
	open := func(k *Known) *Recorder {
		t.Helper()
		d, err := OpenRecorder("job.toml", Options{Today: today, Now: func() time.Time { return today }, Known: k})
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	edit := func(path, from, to string) func() {
		return func() {
			info, err := os.Stat(path)
			if err != nil {
				t.Fatal(err)
			}
			text, err := os.ReadFile(path)
			if err != nil || !strings.Contains(string(text), from) {
				t.Fatal(path, err)
			}
			os.WriteFile(path, []byte(strings.Replace(string(text), from, to, 1)), 0o666)
			os.Chtimes(path, info.ModTime(), info.ModTime())
		}
	}
	act := func(place string, shop bool, piece string) func() {
		return func() {
			if _, err := open(nil).Record(Act{Action: event.Note, Sets: []Set{{Shop: shop,
				Target: event.Of(event.TablePiece, piece), Key: event.KeyPlace, Value: place}}}); err != nil {
				t.Fatal(err)
			}
		}
	}
	for _, c := range []struct {
		name string
		do   func()
	}{
		{"the job's file", edit("job.toml", "boat", "goat")},
		{"the shop's file", edit("shop.toml", "51", "52")},
		{"an included file", edit("more.toml", "50", "54")},
		{"the first entry", act("box 1", false, "p")},
		{"another entry", act("box 2", false, "p")},
		{"an entry of the shop's", act("box 3", true, "d")},
		{"an entry edited by hand", edit("job.journal", "box 2", "box 5")},
		{"a torn line", func() {
			f, err := os.OpenFile("job.journal", os.O_APPEND|os.O_WRONLY, 0)
			if err != nil {
				t.Fatal(err)
			}
			f.WriteString("{")
			f.Close()
		}},
		{"a photo that goes", func() { os.Remove("front.jpg") }},
		{"a photo that is nearly called so", func() { os.WriteFile("gome.jpg", nil, 0o666) }},
		{"a photo that comes", func() { os.WriteFile("gone.jpg", nil, 0o666) }},
		{"a photo that becomes a folder", func() { os.Remove("gone.jpg"); os.Mkdir("gone.jpg", 0o777) }},
		{"the day", func() { today = today.AddDate(2, 0, 0) }},
	} {
		was := open(&known)
		if open(&known).State != was.State {
			t.Fatalf("before %s: nothing has changed, and all is read again", c.name)
		}
		c.do()
		now, fresh := open(&known), open(nil)
		if !reflect.DeepEqual(now.State, fresh.State) {
			t.Errorf("%s: what is shown is not what is there", c.name)
		}
		if reflect.DeepEqual(was.State, now.State) {
			t.Errorf("%s: changes nothing", c.name)
		}
	}
}

// TestPresentMoved: whose an entry of the shop's journal is hangs on whether another job's file is there.
func TestPresentMoved(t *testing.T) {
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("../testdata/demo")); err != nil {
		t.Fatal(err)
	}
	today := time.Date(2031, 2, 1, 9, 0, 0, 0, time.UTC)
	open := func(name string, k *Known) *Recorder {
		t.Helper()
		d, err := OpenRecorder(filepath.Join(dir, name), Options{Today: today, Now: func() time.Time { return today },
			Known: k})
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	d := open("job.toml", nil)
	i := 0
	for i < len(d.State.Pieces) && !d.State.Pieces[i].InShop {
		i++
	}
	if _, err := d.Record(Act{Action: event.Note, Sets: []Set{{Shop: true, Target: event.Of(event.TablePiece,
		d.State.Pieces[i].ID), Key: event.KeyPlace, Value: "box 9"}}}); err != nil {
		t.Fatal(err)
	}
	for _, ext := range []string{".toml", ".journal"} {
		if err := os.Rename(filepath.Join(dir, "job"+ext), filepath.Join(dir, "moved"+ext)); err != nil {
			t.Fatal(err)
		}
	}
	var known Known
	open("moved.toml", &known)
	text, err := os.ReadFile(filepath.Join(dir, "moved.toml"))
	if err != nil {
		t.Fatal(err)
	}
	os.WriteFile(filepath.Join(dir, "job.toml"), text, 0o666)
	now, fresh := open("moved.toml", &known), open("moved.toml", nil)
	if !reflect.DeepEqual(now.l.ours, fresh.l.ours) {
		t.Errorf("whose the entries are: %v, read anew %v", now.l.ours, fresh.l.ours)
	}
}

// TestPresentOwn: who records has a state of his own from then on, and what others were given stays as it was.
func TestPresentOwn(t *testing.T) {
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("../testdata/demo")); err != nil {
		t.Fatal(err)
	}
	job := filepath.Join(dir, "job.toml")
	var known Known
	opt := Options{Today: time.Date(2031, 2, 1, 9, 0, 0, 0, time.UTC), Known: &known}
	a, err := OpenRecorder(job, opt)
	if err != nil {
		t.Fatal(err)
	}
	b, _ := OpenRecorder(job, opt)
	before := a.State.Clone()
	if _, err := b.Record(Act{Action: event.Note, Sets: []Set{{Target: event.Of(event.TablePiece, "crest-1"),
		Key: event.KeyPlace, Value: "box 9"}}}); err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(a.State, before) {
		t.Error("the state of one is changed by the other")
	}
	if _, err := a.Record(Act{Action: event.Note, Sets: []Set{{Target: event.Of(event.TablePiece, "crest-2"),
		Key: event.KeyPlace, Value: "box 8"}}}); err != ErrChanged {
		t.Errorf("he who shows what was before records: %v", err)
	}
	if c, _ := OpenRecorder(job, opt); c.State != b.State {
		t.Error("what follows an act is read again")
	}
	if _, _, err := b.Undo(); err != nil {
		t.Fatal(err)
	}
	c, _ := OpenRecorder(job, opt)
	if fresh, _ := OpenRecorder(job, Options{Today: opt.Today}); !reflect.DeepEqual(c.State, fresh.State) {
		t.Error("after undo the two differ")
	}
}
