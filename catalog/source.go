package catalog

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"
	"syscall"
	"unicode/utf8"

	"brightset/catalog/disk"
)

// readSource reads a whole text file of the user's: not a folder or a device,
// not too large, UTF-8. A byte-order mark is dropped and CR-LF becomes LF. The
// problem, if any, comes back as a mistake without a file name.
func readSource(path string) (string, *Mistake) {
	info, err := os.Stat(path)
	if err != nil {
		return "", unreadable(err)
	}
	switch {
	case info.IsDir():
		return "", &Mistake{Message: "this is a folder, not a file", Hint: "name the file in it"}
	case !info.Mode().IsRegular():
		return "", &Mistake{Message: "this is not a regular file", Hint: "name a file on disk"}
	}
	f, err := disk.Open(path) // it may be another one by now
	if err != nil {
		return "", unreadable(err)
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, maxFileSize+1))
	if err != nil {
		return "", unreadable(err)
	}
	if len(data) > maxFileSize {
		return "", &Mistake{
			Message: fmt.Sprintf("the file is larger than %d MiB", maxFileSize>>20),
			Hint:    "check that this is the right file; photos belong beside it, not in it",
		}
	}
	return checkText(data)
}

// tooManyOpen is what is wrong with a file that is as it was, when this process or the
// machine can open no more.
const tooManyOpen = "too many files are open"

// unreadable says in plain words why a file can't be read.
func unreadable(err error) *Mistake {
	var special *disk.NotRegular
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return &Mistake{Message: "no such file", Hint: "check the name and the folder you are in"}
	case errors.Is(err, fs.ErrPermission):
		return &Mistake{Message: "you are not allowed to read this file", Hint: "change the file's permissions"}
	case errors.Is(err, syscall.EMFILE), errors.Is(err, syscall.ENFILE):
		return &Mistake{Message: tooManyOpen, Hint: "close other programs, or raise the limit with ulimit -n, and try again"}
	case errors.As(err, &special):
		return &Mistake{Message: "this is not a regular file", Hint: "name a file on disk"}
	}
	var p *fs.PathError
	if errors.As(err, &p) {
		err = p.Err
	}
	return &Mistake{Message: fmt.Sprintf("can't be read: %v", err)}
}

// checkText makes sure that the bytes are text and normalises line ends.
func checkText(data []byte) (string, *Mistake) {
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	// the decoder would drop it unasked, and every place after it would be off
	if bytes.HasPrefix(data, []byte("\xef\xbb\xbf")) {
		return "", badByte(data, 0, "the file begins with two byte-order marks",
			"save it again as UTF-8 with one mark at most; two come of joining files")
	}
	if bytes.HasPrefix(data, []byte("\xff\xfe")) || bytes.HasPrefix(data, []byte("\xfe\xff")) {
		return "", &Mistake{Message: "the file is UTF-16, not UTF-8", Hint: "save it again as UTF-8 in your editor"}
	}
	if i := bytes.IndexByte(data, 0); i >= 0 {
		return "", badByte(data, i, "a NUL byte: this is not a text file", "check that this is the right file")
	}
	for i := 0; i < len(data); {
		r, n := utf8.DecodeRune(data[i:])
		if r == utf8.RuneError && n == 1 {
			return "", badByte(data, i, fmt.Sprintf("byte 0x%02x is not valid UTF-8", data[i]),
				"save the file as UTF-8 in your editor")
		}
		i += n
	}
	return strings.ReplaceAll(string(data), "\r\n", "\n"), nil
}

func badByte(data []byte, at int, message, hint string) *Mistake {
	start := bytes.LastIndexByte(data[:at], '\n') + 1
	end := len(data)
	if i := bytes.IndexByte(data[at:], '\n'); i >= 0 {
		end = at + i
	}
	return &Mistake{
		Line:    bytes.Count(data[:at], []byte("\n")) + 1,
		Column:  utf8.RuneCount(data[start:at]) + 1,
		Width:   1,
		Message: message,
		Hint:    hint,
		Text:    lineText(strings.ToValidUTF8(string(data[start:min(end, start+maxText)]), "?")),
	}
}

// maxText is the longest line, in bytes, that a mistake carries along.
const maxText = 4096

// lineText is a line as a mistake shows it: nothing where it is very long.
func lineText(line string) string {
	if len(line) > maxText {
		return ""
	}
	return strings.TrimRight(line, "\r")
}
