package bench

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"net/http"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"brightset/testdata/campaign"
)

// pictureOf is a JPEG of one colour.
func pictureOf(width, height int, c color.YCbCr) []byte {
	img := image.NewYCbCr(image.Rect(0, 0, width, height), image.YCbCrSubsampleRatio444)
	for i := range img.Y {
		img.Y[i] = c.Y
	}
	for i := range img.Cb {
		img.Cb[i], img.Cr[i] = c.Cb, c.Cr
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, nil); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// TestShopsPhotos: a photo of the shop's piece lies beside the shop's file and is the same at
// every job; a photo of that name beside the job is another piece's.
func TestShopsPhotos(t *testing.T) {
	shop := t.TempDir()
	write := func(path string, text []byte) {
		t.Helper()
		os.MkdirAll(filepath.Dir(path), 0o777)
		if err := os.WriteFile(path, text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write(filepath.Join(shop, "shop.toml"),
		[]byte("[shop]\n[piece.drawer]\nfits = [\"a\"]\nkind = \"original\"\nmetal = \"steel\"\n"))
	write(filepath.Join(shop, "photos", "0001.jpg"), pictureOf(40, 20, color.YCbCr{Y: 200, Cb: 128, Cr: 128}))
	serveJob := func(name string) (http.Handler, string) {
		job := filepath.Join(shop, name, "job.toml")
		write(job, []byte("[job]\ntitle = \"t\"\nshop = \"../shop.toml\"\n[slot.a]\n[piece.own]\nfits = [\"a\"]\n"+
			"kind = \"original\"\nmetal = \"steel\"\ngrade = 50\nphotos = [\"photos/0001.jpg\"]\n"))
		write(filepath.Join(shop, name, "photos", "0001.jpg"), pictureOf(20, 40, color.YCbCr{Y: 20, Cb: 128, Cr: 128}))
		h, _ := serve(job, "")
		return h, job
	}
	one, _ := serveJob("one")
	body, kind := photoForm(t, map[string]string{"base": base(t, one), "piece": "shop:drawer", "back": "/"},
		pictureOf(60, 30, color.YCbCr{Y: 99, Cb: 128, Cr: 128}))
	if w := postBody(one, "/photo", kind, body); w.Code != http.StatusSeeOther {
		t.Fatal(w.Code, w.Body)
	}
	if _, err := os.Stat(filepath.Join(shop, "photos", "0002.jpg")); err != nil {
		t.Error("not kept beside the shop's file:", err)
	}
	two, _ := serveJob("two")
	w := get(two, "/photo?piece=shop:drawer&n=0")
	img, _, err := image.DecodeConfig(bytes.NewReader(w.Body.Bytes()))
	if err != nil || img.Width != 60 {
		t.Errorf("at the other job: %d %+v %v", w.Code, img, err)
	}
	if w = get(two, "/photo?piece=job:own&n=0"); w.Code != http.StatusOK {
		t.Error(w.Code)
	}
	if img, _, _ = image.DecodeConfig(w.Body); img.Height != 40 {
		t.Errorf("the job's own: %+v", img)
	}
}

// TestThumbOnce: a photo is read once, a browser that has it is told so in a word, and one
// that was changed on the disk is read again.
func TestThumbOnce(t *testing.T) {
	job := demo(t)
	s, _ := server(job, "", "")
	h := s.Handler()
	const at = "/photo?piece=job:crest-2&n=0"
	first := get(h, at)
	mark := first.Header().Get("ETag")
	if first.Code != http.StatusOK || mark == "" || len(s.thumbs.kept) != 1 {
		t.Fatal(first.Code, first.Header(), len(s.thumbs.kept))
	}
	known := func(r *http.Request) { r.Header.Set("If-None-Match", mark) }
	if w := get(h, at, known); w.Code != http.StatusNotModified || w.Body.Len() > 0 || len(s.thumbs.kept) != 1 {
		t.Errorf("again: %d, %d bytes, %d kept", w.Code, w.Body.Len(), len(s.thumbs.kept))
	}
	photo := filepath.Join(filepath.Dir(job), "crest-2.jpg")
	marks := map[string]bool{mark: true}
	for i, y := range []uint8{5, 200} { // of one size: what differs is when
		data := pictureOf(33, 44, color.YCbCr{Y: y, Cb: 128, Cr: 128})
		data = append(data, make([]byte, 2000-len(data))...)
		if err := os.WriteFile(photo, data, 0o644); err != nil {
			t.Fatal(err)
		}
		when := time.Date(2031, 1, 1+i, 0, 0, 0, 0, time.UTC)
		if err := os.Chtimes(photo, when, when); err != nil {
			t.Fatal(err)
		}
		w := get(h, at, known)
		if w.Code != http.StatusOK || marks[w.Header().Get("ETag")] {
			t.Errorf("changed on the disk: %d", w.Code)
		}
		marks[w.Header().Get("ETag")] = true
	}
	for i := range mostThumbs + 5 {
		s.thumbs.keep(fmt.Sprint(i), thumb{})
	}
	if len(s.thumbs.kept) != mostThumbs || len(s.thumbs.used) != mostThumbs {
		t.Errorf("%d are kept", len(s.thumbs.kept))
	}
}

// TestOtherKinds: what telephones make and is not read is named, with what to do; and a small
// file that would be huge when it is read is not read.
func TestOtherKinds(t *testing.T) {
	job := demo(t)
	h, _ := serve(job, "")
	small := pictureOf(16, 16, color.YCbCr{Y: 5, Cb: 128, Cr: 128})
	sized := func(width, height int, passes bool) []byte {
		all := bytes.Clone(small)
		at := bytes.Index(all, []byte{0xff, 0xc0})
		if passes {
			all[at+1] = 0xc2
		}
		copy(all[at+5:], []byte{byte(height >> 8), byte(height), byte(width >> 8), byte(width)})
		return all
	}
	for want, photo := range map[string][]byte{
		"a HEIC photo":  []byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00"),
		"a WebP photo":  []byte("RIFF\x00\x00\x00\x00WEBPVP8 "),
		"60000 x 60000": sized(60000, 60000, false),
		"6000 x 4000":   sized(6000, 4000, true), // in passes it would take 360 MB
	} {
		body, kind := photoForm(t, map[string]string{"base": base(t, h), "piece": "job:arm-1", "back": "/"}, photo)
		w := postBody(h, "/photo", kind, body)
		text := strings.Join(strings.Fields(w.Body.String()), " ")
		if w.Code != http.StatusUnsupportedMediaType || !strings.Contains(text, want) ||
			!strings.Contains(text, "JPEG") && !strings.Contains(text, "save it smaller") {
			t.Errorf("%s: %d %s", want, w.Code, text)
		}
	}
}

// TestManyPhotos: many large photos asked for at once are read one after the other, and the
// program stays small.
func TestManyPhotos(t *testing.T) {
	job := demo(t)
	dir := filepath.Dir(job)
	many := 5
	if campaign.Long() {
		many = 40
	}
	picture := pictureOf(6000, 4000, color.YCbCr{Y: 90, Cb: 128, Cr: 128})
	var names []string
	for i := range many {
		name := fmt.Sprintf("large-%d.jpg", i)
		names = append(names, fmt.Sprintf("%q", name))
		if err := os.WriteFile(filepath.Join(dir, name), picture, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	text, _ := os.ReadFile(job)
	os.WriteFile(job, bytes.Replace(text, []byte(`photos = ["crest-2.jpg"]`),
		[]byte("photos = ["+strings.Join(names, ", ")+"]"), 1), 0o644)
	h, _ := serve(job, "")
	runtime.GC()
	var before runtime.MemStats
	runtime.ReadMemStats(&before)
	stop, most := make(chan bool), make(chan uint64)
	go func() {
		high := uint64(0)
		for {
			select {
			case <-stop:
				most <- high
				return
			case <-time.After(5 * time.Millisecond):
				var now runtime.MemStats
				runtime.ReadMemStats(&now)
				high = max(high, now.HeapAlloc)
			}
		}
	}()
	var all sync.WaitGroup
	for n := range many {
		all.Go(func() {
			w := get(h, fmt.Sprintf("/photo?piece=job:crest-2&n=%d", n))
			if w.Code != http.StatusOK && w.Code != http.StatusServiceUnavailable {
				t.Errorf("photo %d: %d", n, w.Code)
			}
		})
	}
	all.Wait()
	close(stop)
	if high := <-most; high > before.HeapAlloc+300<<20 {
		t.Errorf("%d MiB in use at once", (high-before.HeapAlloc)>>20)
	}
}
