package page

import (
	"bytes"
	"encoding/base64"
	"encoding/binary"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// quadrants is a picture whose corners are white, red, green and blue.
func quadrants(w, h int) image.Image {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			c := color.RGBA{255, 255, 255, 255}
			switch {
			case x >= w/2 && y < h/2:
				c = color.RGBA{220, 0, 0, 255}
			case x < w/2 && y >= h/2:
				c = color.RGBA{0, 160, 0, 255}
			case x >= w/2:
				c = color.RGBA{0, 0, 220, 255}
			}
			img.SetRGBA(x, y, c)
		}
	}
	return img
}

// byteOrder is both of the interfaces that the two orders have.
type byteOrder interface {
	binary.ByteOrder
	binary.AppendByteOrder
}

// tagged is the picture as a JPEG with an orientation and a place in its tags.
func tagged(t *testing.T, orientation uint16, order byteOrder) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, quadrants(80, 40), &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	tiff := []byte("MM\x00*")
	if order.String() == binary.LittleEndian.String() {
		tiff = []byte("II*\x00")
	}
	tiff = order.AppendUint32(tiff, 8)
	tiff = order.AppendUint16(tiff, 1)
	tiff = order.AppendUint16(tiff, 0x0112)
	tiff = order.AppendUint16(tiff, 3)
	tiff = order.AppendUint32(tiff, 1)
	tiff = order.AppendUint16(tiff, orientation)
	tiff = append(tiff, "\x00\x00\x00\x00\x00\x00SECRET PLACE"...)
	body := append([]byte("Exif\x00\x00"), tiff...)
	seg := binary.BigEndian.AppendUint16([]byte{0xff, 0xe1}, uint16(len(body)+2))
	return append(append(append([]byte{}, b.Bytes()[:2]...), append(seg, body...)...), b.Bytes()[2:]...)
}

// TestUpright: each of the eight orientations is turned so that the corners are where
// they were before the camera was.
func TestUpright(t *testing.T) {
	// the colour that ends at the top left, by orientation (CIPA DC-008, from memory):
	// 1 as it is, 2 mirrored, 3 half turn, 4 flipped, 5 transposed, 6 and 8 quarter turns
	want := []string{"white", "red", "blue", "green", "white", "green", "blue", "red"}
	for _, order := range []byteOrder{binary.BigEndian, binary.LittleEndian} {
		for o := uint16(1); o <= 8; o++ {
			small, err := Shrink(tagged(t, o, order), 64)
			if err != nil {
				t.Fatal(err)
			}
			if bytes.Contains(small, []byte("SECRET")) || bytes.Contains(small, []byte("Exif")) {
				t.Error("tags of the camera are left")
			}
			img, err := jpeg.Decode(bytes.NewReader(small))
			if err != nil {
				t.Fatal(err)
			}
			w, h := img.Bounds().Dx(), img.Bounds().Dy()
			if (o >= 5) != (h > w) || max(w, h) != 64 {
				t.Errorf("orientation %d: %d x %d", o, w, h)
			}
			if got := colourAt(img, 4, 4); got != want[o-1] {
				t.Errorf("orientation %d: %s at the top left, want %s", o, got, want[o-1])
			}
		}
	}
}

func colourAt(img image.Image, x, y int) string {
	r, g, b, _ := img.At(x, y).RGBA()
	switch {
	case r > 0x9000 && g > 0x9000:
		return "white"
	case r > 0x9000:
		return "red"
	case b > 0x9000:
		return "blue"
	case g > 0x6000:
		return "green"
	}
	return "?"
}

func TestShrinkRefuses(t *testing.T) {
	var b bytes.Buffer
	png.Encode(&b, quadrants(10, 10))
	if _, err := Shrink(b.Bytes(), 64); err != nil {
		t.Error("a PNG is refused:", err)
	}
	huge := append([]byte{}, b.Bytes()...)
	binary.BigEndian.PutUint32(huge[16:], 60_000)
	binary.BigEndian.PutUint32(huge[20:], 60_000)
	for name, data := range map[string][]byte{
		"text":    []byte("hello"),
		"nothing": nil,
		"cut":     tagged(t, 1, binary.BigEndian)[:200],
	} {
		if _, err := Shrink(data, 64); err == nil {
			t.Errorf("%s is taken as a photo", name)
		}
	}
	if _, err := Shrink(huge, 64); err == nil {
		t.Error("a picture of 3600 million pixels is taken")
	}
	for _, bad := range []string{"\xff\xd8\xff\xe1\x00\x10Exif\x00\x00MM\x00*\xff\xff\xff\xff", "\xff\xd8\xff\xe1\x00\x01",
		"\xff\xd8", ""} {
		if o := orientation([]byte(bad)); o != 1 {
			t.Errorf("%q: orientation %d", bad, o)
		}
	}
}

// TestThumbnail: photos come from the folder and from nowhere else.
func TestThumbnail(t *testing.T) {
	dir := t.TempDir()
	inside := filepath.Join(dir, "job")
	os.Mkdir(inside, 0o755)
	for _, p := range []string{filepath.Join(dir, "secret.jpg"), filepath.Join(inside, "a.jpg")} {
		os.WriteFile(p, tagged(t, 1, binary.BigEndian), 0o644)
	}
	os.Symlink(filepath.Join(dir, "secret.jpg"), filepath.Join(inside, "link.jpg"))
	root, err := os.OpenRoot(inside)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	if url, err := Thumbnail(root, "a.jpg"); err != nil || !strings.HasPrefix(string(url), "data:image/jpeg;base64,") {
		t.Error(url, err)
	}
	for _, name := range []string{"../secret.jpg", "link.jpg", filepath.Join(dir, "secret.jpg"), "none.jpg", "."} {
		if _, err := Thumbnail(root, name); err == nil {
			t.Errorf("%s is read", name)
		}
	}
}

var policyHash = regexp.MustCompile(`sha256-([A-Za-z0-9+/=]+)`)

// TestPolicy: the page allows nothing but its own style, whatever its names are.
func TestPolicy(t *testing.T) {
	p := &Page{Title: "<b>", Job: "\"} @import url(http://x); \u202e\x01</style><script>", Date: "2031-01-01",
		Plan: "aaaa-bbbb",
		Blocks: []Block{{
			Heading: "<script>x</script>",
			Text:    []string{"</main>"},
			Grid:    &Grid{Heads: []string{"<i>"}, Rows: [][]string{{"<u>"}}},
		}}}
	text, err := p.HTML()
	if err != nil {
		t.Fatal(err)
	}
	s := string(text)
	_, style, _ := strings.Cut(s, "<style>")
	style, _, _ = strings.Cut(style, "</style>")
	if !strings.Contains(s, "default-src &#39;none&#39;") || strings.Contains(s, "<script") ||
		strings.Contains(style, "@import") || strings.Contains(style, "url(") || strings.ContainsRune(style, '\u202e') {
		t.Error(s)
	}
	m := policyHash.FindStringSubmatch(strings.ReplaceAll(s, "&#43;", "+"))
	if m == nil {
		t.Fatal("no hash in the policy")
	}
	if _, err := base64.StdEncoding.DecodeString(m[1]); err != nil {
		t.Error(err)
	}
}
