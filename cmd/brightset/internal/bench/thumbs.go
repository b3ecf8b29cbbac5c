package bench

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"net/http"
	"os"
	"slices"
	"sync"

	"brightset/catalog/disk"
	"brightset/cmd/brightset/internal/report/page"
)

// thumbs keeps small copies of photos, so that each is made once.
type thumbs struct {
	mu   sync.Mutex
	kept map[string]thumb
	used []string // names of kept, the one used last at the end
	gate *gate
}

type thumb struct {
	data []byte
	mark string // of the content, as browsers compare it
}

const (
	mostThumbs = 150 // about 100 KiB each, large ones up to 600
	thumbSide  = 800 // pixels
	largeSide  = 2000
)

var errBusy = errors.New("too many photos are being read")

// busy says that a request has to come again.
func busy(w http.ResponseWriter) {
	w.Header().Set("Retry-After", "5")
	http.Error(w, "busy with other answers: try again in a moment", http.StatusServiceUnavailable)
}

// of gives the small copy of a photo within a folder, and the mark of its content. A photo
// that has changed on the disk is another one.
func (t *thumbs) of(r *http.Request, folder, name string, side int) ([]byte, string, error) {
	root, err := os.OpenRoot(folder)
	if err != nil {
		return nil, "", err
	}
	defer root.Close()
	f, err := disk.OpenIn(root, name)
	if err != nil {
		return nil, "", err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return nil, "", err
	}
	key := fmt.Sprintf("%s\x00%s\x00%d\x00%d\x00%d", folder, name, side, info.Size(), info.ModTime().UnixNano())
	if one, ok := t.known(key); ok {
		return one.data, one.mark, nil
	}
	leave, ok := t.gate.enter(r)
	if !ok {
		return nil, "", errBusy
	}
	defer leave()
	if one, ok := t.known(key); ok { // made while we waited
		return one.data, one.mark, nil
	}
	data, err := io.ReadAll(io.LimitReader(f, maxPhoto))
	if err != nil {
		return nil, "", err
	}
	small, err := page.Shrink(data, side)
	if err != nil {
		return nil, "", err
	}
	sum := sha256.Sum256(small)
	one := thumb{small, `"` + hex.EncodeToString(sum[:16]) + `"`}
	t.keep(key, one)
	return one.data, one.mark, nil
}

func (t *thumbs) known(key string) (thumb, bool) {
	t.mu.Lock()
	defer t.mu.Unlock()
	one, ok := t.kept[key]
	if ok {
		i := slices.Index(t.used, key)
		t.used = append(slices.Delete(t.used, i, i+1), key)
	}
	return one, ok
}

func (t *thumbs) keep(key string, one thumb) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.kept == nil {
		t.kept = map[string]thumb{}
	}
	t.kept[key], t.used = one, append(t.used, key)
	for len(t.used) > mostThumbs {
		delete(t.kept, t.used[0])
		t.used = t.used[1:]
	}
}
