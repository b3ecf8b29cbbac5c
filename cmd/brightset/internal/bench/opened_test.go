package bench

import (
	"bytes"
	"fmt"
	"image"
	"image/jpeg"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"sync"
	"testing"

	"brightset/model/seeded"
)

// fortySlots is a job of 40 slots, with five photos of its first piece. It gives that piece's id.
func fortySlots(t testing.TB) (job, piece string) {
	t.Helper()
	f, _ := seeded.Named("many-matches")
	st := seeded.Job(f, 1)
	dir := t.TempDir()
	if err := seeded.WriteFiles(st, dir); err != nil {
		t.Fatal(err)
	}
	var picture bytes.Buffer
	jpeg.Encode(&picture, image.NewGray(image.Rect(0, 0, 1200, 900)), nil)
	var names []string
	for n := range 5 {
		name := fmt.Sprintf("%d.jpg", n)
		names = append(names, fmt.Sprintf("%q", name))
		if err := os.WriteFile(filepath.Join(dir, name), picture.Bytes(), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	job = filepath.Join(dir, "job.toml")
	text, err := os.ReadFile(job)
	if err != nil {
		t.Fatal(err)
	}
	at := strings.Index(string(text), "\n[piece.")
	piece, _, _ = strings.Cut(string(text[at+len("\n[piece."):]), "]")
	end := at + 1 + strings.Index(string(text[at+1:]), "\n")
	out := string(text[:end]) + "\nphotos = [" + strings.Join(names, ", ") + "]" + string(text[end:])
	if err := os.WriteFile(job, []byte(out), 0o666); err != nil {
		t.Fatal(err)
	}
	return job, piece
}

// BenchmarkFivePhotos fetches a piece's five photos at once, as a page does.
func BenchmarkFivePhotos(b *testing.B) {
	job, piece := fortySlots(b)
	h, _ := serve(job, "")
	for b.Loop() {
		var all sync.WaitGroup
		for n := range 5 {
			all.Go(func() {
				if w := get(h, fmt.Sprintf("/photo?piece=job:%s&n=%d", piece, n)); w.Code != 200 {
					b.Error(w.Code, w.Body)
				}
			})
		}
		all.Wait()
	}
}

// TestNothingStale: what another program has done to the files since the last request shows, though the file is as
// long as it was and the clock of the disk has not gone on.
func TestNothingStale(t *testing.T) {
	job, piece := fortySlots(t)
	h, _ := serve(job, "")
	photo := func(n string) int { return get(h, "/photo?piece=job:"+piece+"&n="+n).Code }
	info, err := os.Stat(job)
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(job)
	if err != nil {
		t.Fatal(err)
	}
	for n := range 20 {
		if photo("4") != 200 {
			t.Fatal(n, "the photo is not shown")
		}
		less := strings.Replace(string(text), `, "4.jpg"]`, `         ]`, 1)
		if len(less) != len(text) || less == string(text) {
			t.Fatal("nothing is edited")
		}
		os.WriteFile(job, []byte(less), 0o666)
		os.Chtimes(job, info.ModTime(), info.ModTime())
		if code := photo("4"); code != 404 {
			t.Fatal(n, "a photo that the piece names no more is shown: ", code)
		}
		os.WriteFile(job, text, 0o666)
		os.Chtimes(job, info.ModTime(), info.ModTime())
	}
}

// TestSharedStays: the state that requests share is after every page and part what it was: nobody changes it.
func TestSharedStays(t *testing.T) {
	s, _ := server(demo(t), "", "")
	h := s.Handler()
	was, err := s.recorder()
	if err != nil {
		t.Fatal(err)
	}
	before := was.State.Clone()
	var all sync.WaitGroup
	for _, path := range []string{"/", "/?slot=crest", "/new", "/plan", "/what-if", "/papers", "/journal", "/position",
		"/lots",
		"/photos?slot=crest", "/hunt", "/risk", "/learn", "/jobs", "/shop", "/ready", "/why?slot=crest", "/others",
		"/risk.part", "/turns", "/costs.json?slot=crest", "/locks.json?slot=crest",
		"/what-if.json?mean=90", "/edge.json?budget=900", "/export/pieces.csv"} {
		all.Go(func() {
			if w := get(h, path); w.Code != 200 && w.Code != 204 {
				t.Errorf("%s: %d %s", path, w.Code, w.Body)
			}
		})
	}
	all.Wait()
	now, err := s.recorder()
	if err != nil {
		t.Fatal(err)
	}
	if now.State != was.State {
		t.Error("the state is not shared")
	}
	if !reflect.DeepEqual(now.State, before) {
		t.Error("somebody has changed it")
	}
}
