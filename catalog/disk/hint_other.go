//go:build !windows

package disk

// inUse says no: a file that others have open can be written, renamed and taken away here.
func inUse(error) bool { return false }
