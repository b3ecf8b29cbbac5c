package page

import (
	"bytes"
	"encoding/base64"
	"encoding/binary"
	"fmt"
	"html/template"
	"image"
	_ "image/gif" // decoders that image.Decode finds
	"image/jpeg"
	_ "image/png"
	"io"
	"os"
	"slices"

	"brightset/catalog/disk"

	"golang.org/x/image/draw"
)

// Limits of photos.
const (
	maxPhoto   = 64 << 20  // bytes of the file
	maxDecoded = 200 << 20 // bytes of the picture while it is worked on
	thumbSide  = 560       // pixels of the longer side
	thumbGrade = 82        // of the JPEG
)

// Thumbnail reads a photo inside a folder and gives a small copy of it to be written
// into a page: turned upright as its EXIF tag says, and stripped of everything else
// that cameras put in, such as where it was taken.
func Thumbnail(root *os.Root, name string) (template.URL, error) {
	f, err := disk.OpenIn(root, name)
	if err != nil {
		return "", err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, maxPhoto+1))
	if err != nil {
		return "", err
	}
	if len(data) > maxPhoto {
		return "", fmt.Errorf("the photo is larger than %d MiB", maxPhoto>>20)
	}
	small, err := Shrink(data, thumbSide)
	if err != nil {
		return "", err
	}
	return template.URL("data:image/jpeg;base64," + base64.StdEncoding.EncodeToString(small)), nil
}

// Shrink gives a photo as a JPEG whose longer side has at most so many pixels, upright
// and without any tags.
func Shrink(data []byte, side int) ([]byte, error) {
	if other := otherKind(data); other != "" {
		return nil, fmt.Errorf("this is a %s photo, which not every browser shows and no old printer prints: set the camera "+
			"to JPEG, or save it as JPEG", other)
	}
	conf, kind, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return nil, fmt.Errorf("this is no JPEG, PNG or GIF: %w", err)
	}
	if conf.Width < 1 || conf.Height < 1 || conf.Width > maxDecoded/perPixel(kind, data)/conf.Height {
		return nil, fmt.Errorf("the photo has %d x %d pixels, which is more than can be worked on: save it smaller",
			conf.Width, conf.Height)
	}
	img, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	w, h := conf.Width, conf.Height
	if most := max(w, h); most > side {
		w, h = max(1, w*side/most), max(1, h*side/most)
	}
	small := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(small, small.Bounds(), image.White, image.Point{}, draw.Src) // behind what is transparent
	draw.CatmullRom.Scale(small, small.Bounds(), img, img.Bounds(), draw.Over, nil)
	if kind == "jpeg" {
		small = upright(small, orientation(data))
	}
	var out bytes.Buffer
	err = jpeg.Encode(&out, small, &jpeg.Options{Quality: thumbGrade})
	return out.Bytes(), err
}

// otherKind names the kinds of photo that telephones make and that are not read here. The first
// bytes are those of the WebP container specification and of ISO/IEC 14496-12 (from memory).
func otherKind(data []byte) string {
	if len(data) < 12 {
		return ""
	}
	switch brand := string(data[8:12]); {
	case string(data[:4]) == "RIFF" && brand == "WEBP":
		return "WebP"
	case string(data[4:8]) != "ftyp":
	case slices.Contains([]string{"heic", "heix", "heif", "hevc", "mif1", "msf1"}, brand):
		return "HEIC"
	case brand == "avif" || brand == "avis":
		return "AVIF"
	}
	return ""
}

// perPixel is how many bytes a pixel takes at most while a photo is read: three planes of a
// JPEG, and four bytes more for each of them where it comes in several passes; 64 bits of a
// PNG, whose passes are put together beside it; an index of a GIF.
func perPixel(kind string, data []byte) int {
	switch {
	case kind == "gif":
		return 1
	case kind == "png":
		return 10
	case inPasses(data):
		return 15
	}
	return 3
}

// inPasses says whether a JPEG is progressive: its frame header is SOF2, 0xffc2 (ITU-T T.81,
// table B.1).
func inPasses(data []byte) bool {
	for at := 2; at+4 <= len(data) && data[at] == 0xff; {
		switch kind := data[at+1]; {
		case kind == 0xc2:
			return true
		case kind == 0xda:
			return false
		case kind == 0xff:
			at++
		default:
			at += 2 + int(binary.BigEndian.Uint16(data[at+2:]))
		}
	}
	return false
}

// orientation reads the EXIF tag 0x0112 of a JPEG: 1 to 8, 1 where there is none. The
// layout is that of the EXIF standard, CIPA DC-008 (from memory).
func orientation(data []byte) int {
	for at := 2; at+4 <= len(data) && data[at] == 0xff; {
		kind, size := data[at+1], int(binary.BigEndian.Uint16(data[at+2:]))
		if kind == 0xda || size < 2 || at+2+size > len(data) {
			return 1
		}
		if body := data[at+4 : at+2+size]; kind == 0xe1 && bytes.HasPrefix(body, []byte("Exif\x00\x00")) {
			return tiffOrientation(body[6:])
		}
		at += 2 + size
	}
	return 1
}

func tiffOrientation(t []byte) int {
	var order binary.ByteOrder
	switch {
	case bytes.HasPrefix(t, []byte("II*\x00")):
		order = binary.LittleEndian
	case bytes.HasPrefix(t, []byte("MM\x00*")):
		order = binary.BigEndian
	default:
		return 1
	}
	if len(t) < 8 {
		return 1
	}
	at := int64(order.Uint32(t[4:]))
	if at+2 > int64(len(t)) {
		return 1
	}
	for n := int64(order.Uint16(t[at:])); n > 0; n-- {
		entry := at + 2 + 12*(n-1)
		if entry+12 > int64(len(t)) {
			continue
		}
		if order.Uint16(t[entry:]) == 0x0112 {
			if v := int(order.Uint16(t[entry+8:])); v >= 1 && v <= 8 {
				return v
			}
		}
	}
	return 1
}

// upright turns a picture the way its orientation says.
func upright(src *image.RGBA, orientation int) *image.RGBA {
	if orientation <= 1 || orientation > 8 {
		return src
	}
	w, h := src.Bounds().Dx(), src.Bounds().Dy()
	dw, dh := w, h
	if orientation >= 5 {
		dw, dh = h, w
	}
	dst := image.NewRGBA(image.Rect(0, 0, dw, dh))
	for y := range h {
		for x := range w {
			dx, dy := x, y
			switch orientation {
			case 2:
				dx = w - 1 - x
			case 3:
				dx, dy = w-1-x, h-1-y
			case 4:
				dy = h - 1 - y
			case 5:
				dx, dy = y, x
			case 6:
				dx, dy = h-1-y, x
			case 7:
				dx, dy = h-1-y, w-1-x
			case 8:
				dx, dy = y, w-1-x
			}
			dst.SetRGBA(dx, dy, src.RGBAAt(x, y))
		}
	}
	return dst
}
