package disk

import (
	"fmt"
	"io/fs"
	"os"
	"syscall"
	"testing"
)

// TestHint: where a folder can't be written to, what to do instead is said; nothing is made up
// where the error is another one.
func TestHint(t *testing.T) {
	for _, c := range []struct {
		err  error
		want string
	}{
		{&fs.PathError{Op: "open", Path: "x", Err: syscall.EROFS}, "; go there"},
		{fmt.Errorf("in all: %w", &os.LinkError{Op: "rename", Old: "x", New: "y", Err: os.ErrPermission}), "; go there"},
		{syscall.ENOSPC, ""},
		{nil, ""},
	} {
		if got := Hint(c.err, "go there"); got != c.want {
			t.Errorf("%v: %q, want %q", c.err, got, c.want)
		}
	}
}
