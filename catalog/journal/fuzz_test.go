package journal

import (
	"bytes"
	"encoding/json"
	"testing"
)

// FuzzRead: no bytes make it panic, and every line that is taken can be written again.
func FuzzRead(f *testing.F) {
	e := entry(1)
	e.Version, e.Seq = 1, 1
	line, _ := e.line()
	f.Add(line)
	f.Add([]byte("{}\n[]\n\x00"))
	f.Add(bytes.Replace(line, []byte("target"), []byte("TARGET"), 1))
	f.Fuzz(func(t *testing.T, data []byte) {
		l := Read(data)
		for i := range l.Entries {
			text, err := l.Entries[i].line()
			if err != nil {
				t.Fatal(err)
			}
			again, err := parse(bytes.TrimSpace(text))
			if err != nil && len(l.Problems) == 0 {
				t.Fatalf("%v in %s", err, text)
			}
			again.Line = l.Entries[i].Line
			a, _ := json.Marshal(again)
			b, _ := json.Marshal(l.Entries[i])
			if len(l.Problems) == 0 && !bytes.Equal(a, b) {
				t.Errorf("%s\n%s", a, b)
			}
		}
		l.Standing(nil)
		l.NextUndo()
		l.NextRedo()
	})
}

func BenchmarkRead(b *testing.B) {
	var data bytes.Buffer
	for n := 1; n <= 10_000; n++ {
		e := entry(n)
		e.Version, e.Seq = 1, n
		line, _ := e.line()
		data.Write(line)
	}
	for b.Loop() {
		if l := Read(data.Bytes()); len(l.Entries) != 10_000 {
			b.Fatal(len(l.Entries))
		}
	}
}
