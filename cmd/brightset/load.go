package main

import (
	"fmt"
	"os"
	"path/filepath"
	"time"

	"brightset/catalog"
)

// now is the time of day; tests set it.
var now = time.Now

// load reads the job named by the first argument.
func load(c *call) (*catalog.State, error) {
	path, err := jobPath(c)
	if err != nil {
		return nil, err
	}
	return catalog.Load(path, catalog.Options{Today: now()})
}

// jobPath is the job named by the first argument: a job file, or a folder with a
// job.toml in it; the current folder where there is no argument.
func jobPath(c *call) (string, error) {
	if len(c.args) > 0 {
		return jobPathOf(c.args[0])
	}
	return jobPathOf("job.toml")
}

// jobPathOf is the job of a file or folder.
func jobPathOf(path string) (string, error) {
	info, err := os.Stat(path)
	if err == nil && info.IsDir() {
		path = filepath.Join(path, "job.toml")
		_, err = os.Stat(path)
	}
	if os.IsNotExist(err) {
		return "", fmt.Errorf("no job at %q; to start one type: brightset new FOLDER", path)
	}
	return path, err
}
