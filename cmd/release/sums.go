package main

import (
	"crypto/sha256"
	"fmt"
	"io"
	"os"
	"path/filepath"
)

// sums writes the checksums of files as sha256sum prints and checks them.
func sums(list string, files []string) error {
	var text []byte
	for _, name := range files {
		sum, err := sumOf(name)
		if err != nil {
			return err
		}
		text = fmt.Appendf(text, "%x  %s\n", sum, filepath.Base(name))
	}
	return os.WriteFile(list, text, 0o644)
}

func sumOf(name string) ([]byte, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return nil, err
	}
	return h.Sum(nil), nil
}
