package jobs

import (
	"path/filepath"
	"testing"

	"brightset/catalog"
)

func DemoState(t *testing.T) *catalog.State {
	t.Helper()
	st, err := catalog.Load(filepath.Join("..", "..", "testdata", "demo", "job.toml"), catalog.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return st
}
