package main

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"crypto/sha512"
	"encoding/base64"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// TestBenchAccessible lets axe-core look at every page, at three widths.
func TestBenchAccessible(t *testing.T) {
	needBrowser(t)
	script := axe(t)
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("testdata/demo")); err != nil {
		t.Fatal(err)
	}
	b := newBench(t, filepath.Join(dir, "job.toml"))
	for _, width := range []int64{360, 768, 1280} {
		for _, path := range []string{"/?slot=crest", "/plan", "/what-if", "/papers", "/journal", "/new"} {
			b.do(chromedp.EmulateViewport(width, 900))
			b.open(path)
			eval[bool](b, `document.querySelectorAll("details").forEach(d => d.open = true), true`)
			eval[chromedp.Void](b, script+"; void 0")
			eval[bool](b, `window.__axe = null, axe.run().then(r => { window.__axe = r.violations.map(v => v.id + ": " + v.nodes.slice(0, 3).map(n => n.html.slice(0, 120)).join(" | ")).join("\n"); }), true`)
			for range 400 {
				if eval[bool](b, `window.__axe !== null`) {
					break
				}
				time.Sleep(25 * time.Millisecond)
			}
			if found := eval[string](b, `window.__axe === null ? "no answer" : window.__axe`); found != "" {
				t.Errorf("%s at %d px:\n%s", path, width, found)
			}
			if eval[int](b, `document.documentElement.scrollWidth - document.documentElement.clientWidth`) > 0 {
				t.Errorf("%s at %d px is wider than the screen", path, width)
			}
			small := eval[string](b, `[...document.querySelectorAll("button, summary, a.button, .keys span, nav a")].filter(e => e.offsetParent && e.getBoundingClientRect().height < 48).map(e => e.innerText.trim()).slice(0, 5).join(", ")`)
			if small != "" {
				t.Errorf("%s at %d px: too small to hit: %s", path, width, small)
			}
		}
	}
}

// axe fetches the checker; where there is no network there is no such test.
func axe(t *testing.T) string {
	t.Helper()
	client := &http.Client{Timeout: 30 * time.Second}
	r, err := client.Get(axeURL)
	if err != nil {
		t.Skip("no network:", err)
	}
	defer r.Body.Close()
	data, err := io.ReadAll(r.Body)
	if err != nil || r.StatusCode != 200 {
		t.Skip("no answer from the registry:", r.Status, err)
	}
	if sum := sha512.Sum512(data); base64.StdEncoding.EncodeToString(sum[:]) != axeSum {
		t.Fatal("the registry gave something else")
	}
	z, err := gzip.NewReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	for files := tar.NewReader(z); ; {
		h, err := files.Next()
		if err != nil {
			t.Fatal(err)
		}
		if h.Name == "package/axe.min.js" {
			text, err := io.ReadAll(files)
			if err != nil {
				t.Fatal(err)
			}
			return string(text)
		}
	}
}
