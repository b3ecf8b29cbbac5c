package main

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"brightset/catalog/disk"

	"github.com/spf13/pflag"
)

// scaffold are the files a new job starts from.
//
//go:embed scaffold/job.toml scaffold/shop.toml
var scaffold embed.FS

var newCommand = command{
	name: "new", args: "FOLDER", most: 1,
	summary: "start a job: a folder with a job.toml and a shop.toml to fill in",
	text: "Both files are explained line by line and work as they stand. A file that is there already is never " +
		"touched: then nothing is written.",
	setup: func(*pflag.FlagSet) action { return newJob },
}

func newJob(c *call) (int, error) {
	if len(c.args) == 0 {
		return 0, usageError{"new needs a folder; type: brightset new FOLDER"}
	}
	folder := c.args[0]
	names := []string{"job.toml", "shop.toml"}
	for _, name := range names {
		path := filepath.Join(folder, name)
		if _, err := os.Lstat(path); err == nil {
			return 0, fmt.Errorf("%q is there already, nothing was written; type: brightset new OTHER-FOLDER", path)
		} else if !errors.Is(err, fs.ErrNotExist) {
			return 0, err
		}
	}
	if err := disk.Folder(folder); err != nil {
		return 0, err
	}
	var wrote []string
	for _, name := range names {
		text, err := scaffold.ReadFile("scaffold/" + name)
		if err != nil {
			return 0, err
		}
		if err := disk.New(filepath.Join(folder, name), text); err != nil {
			for _, before := range wrote { // half a job is none, and would be in the way
				os.Remove(before)
			}
			return 0, err
		}
		wrote = append(wrote, filepath.Join(folder, name))
	}
	job := filepath.Join(folder, "job.toml")
	return exitAnswered, c.print(fmt.Sprintf("wrote %s and %s\nnext: fill them in, then type: brightset check %s\n",
		job, filepath.Join(folder, "shop.toml"), folder))
}
