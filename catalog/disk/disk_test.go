//go:build unix

package disk

import (
	"os"
	"path/filepath"
	"testing"
)

// TestLeftBehind: what a killed process left is taken away by the next writer; what
// another one is making stays, and so does everything else.
func TestLeftBehind(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "a[b]*c")
	os.Mkdir(dir, 0o755)
	left, link := filepath.Join(dir, ".brightset-killed"), filepath.Join(dir, ".brightset-link")
	os.WriteFile(left, []byte("half"), 0o600)
	os.WriteFile(filepath.Join(dir, "mine"), nil, 0o600)
	os.Symlink("mine", link)
	making, err := Beside(filepath.Join(dir, "x"), ".toml")
	if err != nil {
		t.Fatal(err)
	}
	if err := New(filepath.Join(dir, "y"), []byte("y")); err != nil {
		t.Fatal(err)
	}
	for path, there := range map[string]bool{left: false, link: true, making.Path: true, filepath.Join(dir, "mine"): true,
		filepath.Join(dir, "y"): true} {
		if _, err := os.Lstat(path); (err == nil) != there {
			t.Errorf("%s: %v", path, err)
		}
	}
	making.Discard()
	if all, _ := os.ReadDir(dir); len(all) != 3 {
		t.Errorf("%d files", len(all))
	}
}

// TestFailed: a file that can't be written whole is not there at all.
func TestFailed(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x")
	temp, err := Beside(path, "")
	if err != nil {
		t.Fatal(err)
	}
	temp.f.Close() // as a full disk
	if err := temp.Write([]byte("x")); err == nil {
		t.Error("written to a closed file")
	}
	temp.Discard()
	if _, err := os.Lstat(path); err == nil {
		t.Error("an empty file was left")
	}
}
