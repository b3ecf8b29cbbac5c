package disk

import (
	"fmt"
	"os"
)

// NotRegular says that a path is a pipe, a device or a folder.
type NotRegular struct{ Path string }

func (e *NotRegular) Error() string { return fmt.Sprintf("%s is not a regular file", e.Path) }

// regular gives an open file back if it is a plain one, and closes it else.
func regular(f *os.File) (*os.File, error) {
	info, err := f.Stat()
	if err == nil && !info.Mode().IsRegular() {
		err = &NotRegular{f.Name()}
	}
	if err != nil {
		f.Close()
		return nil, err
	}
	return f, nil
}
