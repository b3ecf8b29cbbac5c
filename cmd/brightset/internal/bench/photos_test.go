package bench

import (
	"bytes"
	"fmt"
	"image"
	"image/jpeg"
	"io"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// photoForm is a form with a photo.
func photoForm(t *testing.T, fields map[string]string, photo []byte) (body *bytes.Buffer, kind string) {
	t.Helper()
	body = &bytes.Buffer{}
	m := multipart.NewWriter(body)
	for k, v := range fields {
		m.WriteField(k, v)
	}
	f, _ := m.CreateFormFile("photo", "../../evil.jpg")
	f.Write(photo)
	m.Close()
	return body, m.FormDataContentType()
}

// postBody sends a body of a kind.
func postBody(h http.Handler, path, kind string, body io.Reader) *httptest.ResponseRecorder {
	r := httptest.NewRequest("POST", "http://"+host+path, body)
	r.Header.Set("Content-Type", kind)
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

func TestPhotos(t *testing.T) {
	job := demo(t)
	h, _ := serve(job, "")
	var picture bytes.Buffer
	jpeg.Encode(&picture, image.NewGray(image.Rect(0, 0, 60, 40)), nil)
	send := func(photo []byte, piece string) int {
		body, kind := photoForm(t, map[string]string{"base": base(t, h), "piece": piece, "back": "/"}, photo)
		return postBody(h, "/photo", kind, body).Code
	}
	if code := send(picture.Bytes(), "job:arm-1"); code != http.StatusSeeOther {
		t.Fatal(code)
	}
	if _, err := os.Stat(filepath.Join(filepath.Dir(job), "photos", "0001.jpg")); err != nil {
		t.Error(err)
	}
	if w := get(h, "/photo?piece=job:arm-1&n=0"); w.Code != 200 || w.Header().Get("Content-Type") != "image/jpeg" {
		t.Error(w.Code)
	}
	before := folder(t, job)
	for name, code := range map[string]int{
		"text":     send([]byte("hello"), "job:arm-1"),
		"no piece": send(picture.Bytes(), "job:nobody"),
	} {
		if code < 400 {
			t.Errorf("%s: %d", name, code)
		}
	}
	if folder(t, job) != before {
		t.Error("something was kept")
	}
	huge := io.LimitReader(zeros{}, maxPhoto+1000)
	r := httptest.NewRequest("POST", "http://"+host+"/photo", huge)
	r.Header.Set("Content-Type", "multipart/form-data; boundary=x")
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	w := httptest.NewRecorder()
	if h.ServeHTTP(w, r); w.Code < 400 {
		t.Error("more than a photo's worth is taken")
	}
	long := url.Values{"action": {"note"}, "target": {strings.Repeat("x", maxForm+10)}}
	if w := post(h, "/do", long); w.Code != http.StatusBadRequest {
		t.Error("more than a form's worth is taken", w.Code)
	}
}

type zeros struct{}

func (zeros) Read(p []byte) (int, error) { return len(p), nil }

// TestPhotosInside: a photo's path that leads out of the folder is not followed.
func TestPhotosInside(t *testing.T) {
	job := demo(t)
	secret := filepath.Join(t.TempDir(), "secret.jpg")
	var picture bytes.Buffer
	jpeg.Encode(&picture, image.NewGray(image.Rect(0, 0, 60, 40)), nil)
	os.WriteFile(secret, picture.Bytes(), 0o644)
	os.Symlink(secret, filepath.Join(filepath.Dir(job), "link.jpg"))
	text, _ := os.ReadFile(job)
	os.WriteFile(job, bytes.Replace(text, []byte(`photos = ["crest-2.jpg"]`),
		fmt.Appendf(nil, "photos = [%q, \"link.jpg\", \"../x.jpg\", \"/etc/hosts\"]", secret), 1), 0o644)
	h, _ := serve(job, "")
	for n := range 6 {
		if w := get(h, fmt.Sprintf("/photo?piece=job:crest-2&n=%d", n)); w.Code != http.StatusNotFound {
			t.Errorf("photo %d: %d", n, w.Code)
		}
	}
	for _, q := range []string{"", "?piece=job:crest-2&n=-1", "?piece=job:crest-2&n=x", "?piece=../x&n=0"} {
		if w := get(h, "/photo"+q); w.Code != http.StatusNotFound {
			t.Errorf("%s: %d", q, w.Code)
		}
	}
}
