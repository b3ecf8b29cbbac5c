package catalog

import (
	"os"
	"strings"
	"testing"
)

func TestUnreadableFiles(t *testing.T) {
	inFolder(t, map[string]string{
		"nul.toml":   "[job]\nti\x00tle = 1\n",
		"bad.toml":   "[job]\ntitle = \"äb\xffc\"\n",
		"utf16.toml": "\xff\xfe[\x00",
		"large.toml": strings.Repeat("#", maxFileSize+1),
	})
	if err := os.Mkdir("folder", 0o755); err != nil {
		t.Fatal(err)
	}
	cases := map[string]string{
		"nothing.toml": "nothing.toml: no such file\n    check the name and the folder you are in",
		"folder":       "folder: this is a folder, not a file\n    name the file in it",
		"nul.toml": "nul.toml:2:3: a NUL byte: this is not a text file\n    ti tle = 1\n      ^\n    check that this " +
			"is the right file",
		"bad.toml": "bad.toml:2:12: byte 0xff is not valid UTF-8\n    title = \"äb?c\"\n               ^\n    save the " +
			"file as UTF-8 in your editor",
		"utf16.toml": "utf16.toml: the file is UTF-16, not UTF-8\n    save it again as UTF-8 in your editor",
		"large.toml": "large.toml: the file is larger than 16 MiB\n    check that this is the right file; photos belong " +
			"beside it, not in it",
		"/dev/zero": "/dev/zero: this is not a regular file\n    name a file on disk",
	}
	if os.Geteuid() > 0 {
		if err := os.WriteFile("locked.toml", nil, 0); err != nil {
			t.Fatal(err)
		}
		cases["locked.toml"] = "locked.toml: you are not allowed to read this file\n    change the file's permissions"
	}
	for path, want := range cases {
		if _, err := os.Stat(path); strings.HasPrefix(path, "/dev/") && err != nil {
			continue
		}
		_, err := Load(path, Options{})
		if err == nil || err.Error() != want {
			t.Errorf("%s: got\n%v\nwant\n%s", path, err, want)
		}
	}
}

func TestMarksAndLineEnds(t *testing.T) {
	inFolder(t, map[string]string{"job.toml": "\xef\xbb\xbf[job]\r\ntitle = \"\"\"a\r\nb\"\"\"\r\nprise = 1\r\n"})
	_, err := Load("job.toml", Options{})
	if m, ok := err.(*Mistakes); !ok || len(m.List) != 1 || m.List[0].Line != 4 || m.List[0].Text != "prise = 1" {
		t.Fatalf("got %v", err)
	}
	s := mustLoad(t, "\xef\xbb\xbf[job]\r\ntitle = \"\"\"a\r\nb\"\"\"\r\n", "", Options{})
	if s.Job.Title != "a\nb" {
		t.Errorf("title %q", s.Job.Title)
	}
}
