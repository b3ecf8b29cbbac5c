package catalog

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"testing"
	"time"

	"brightset/catalog/event"
)

// TestKnown: what is known of files that were read before changes nothing: after every act, undo and edit the state
// is the one that is read from nothing, and what is kept stays within its limit.
func TestKnown(t *testing.T) {
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("../testdata/demo")); err != nil {
		t.Fatal(err)
	}
	job := filepath.Join(dir, "job.toml")
	var known Known
	now := func() time.Time { return time.Date(2031, 2, 1, 9, 0, 0, 0, time.UTC) }
	open := func(k *Known) *Recorder {
		t.Helper()
		d, err := OpenRecorder(job, Options{Today: now(), Now: now, Known: k})
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	r := rand.New(rand.NewPCG(7, 7))
	pieces := []string{"crest-1", "crest-2", "arm-1", "arm-2", "bullet-3"}
	for n := range 40 {
		d := open(&known)
		piece := event.Of(event.TablePiece, pieces[r.IntN(len(pieces))])
		switch r.IntN(4) {
		case 0:
			d.Undo()
		case 1:
			text, err := os.ReadFile(job)
			if err != nil {
				t.Fatal(err)
			}
			os.WriteFile(job, append(text, fmt.Sprintf("# edit %d\n", n)...), 0o666)
		default:
			act := Act{Action: event.Note, Sets: []Set{{Target: piece, Key: event.KeyPlace, Value: fmt.Sprintf("box %d", n)},
				{Target: piece.Below(event.TableFinding, fmt.Sprintf("f%d", n)), Key: event.KeyDefect, Value: "pits"}}}
			if _, err := d.Record(act); err != nil {
				t.Fatal(err)
			}
		}
		if a, b := open(&known).State, open(nil).State; !reflect.DeepEqual(a, b) {
			t.Fatalf("after %d acts the two differ", n+1)
		}
	}
	if len(known.all) == 0 {
		t.Error("nothing is known")
	}
	for n := range 60 {
		text := fmt.Sprintf("a = %d\nb = %q\n", n, make([]byte, 20_000))
		known.keep(text, scan(text), map[string]any{})
	}
	if known.bytes > mostKnown || len(known.all) != len(known.order) {
		t.Error(known.bytes, len(known.all), len(known.order))
	}
}
