package journal

import (
	"bufio"
	"fmt"
	"os"
	"strconv"
	"strings"
	"time"
)

// patience is how long a writer waits for another: no entry takes a second to write.
var patience = 10 * time.Second

// Held says that another process has a journal open for writing and does not let go.
type Held struct {
	Path string
	By   string // in words
}

func (h *Held) Error() string {
	return fmt.Sprintf("%s is held by %s; let it finish, or end it, and repeat this", h.Path, h.By)
}

// holder says who has locked a file, as far as the system tells: his number, what he was
// started as, and since when he runs.
func holder(f *os.File) string {
	const unknown = "another program"
	list, err := os.Open("/proc/locks")
	if err != nil {
		return unknown
	}
	defer list.Close()
	inode := ":" + strconv.FormatUint(inodeOf(f), 10)
	for lines := bufio.NewScanner(list); lines.Scan(); {
		// 1: FLOCK ADVISORY WRITE 4711 08:02:131090 0 EOF
		part := strings.Fields(lines.Text())
		if len(part) < 6 || part[1] != "FLOCK" || !strings.HasSuffix(part[5], inode) {
			continue
		}
		if pid, err := strconv.Atoi(part[4]); err == nil && pid > 0 {
			return process(pid)
		}
	}
	return unknown
}

// process describes a process in words.
func process(pid int) string {
	text := fmt.Sprintf("process %d", pid)
	if line, err := os.ReadFile(fmt.Sprintf("/proc/%d/cmdline", pid)); err == nil {
		words := strings.Fields(strings.ToValidUTF8(strings.ReplaceAll(string(line), "\x00", " "), "?"))
		if command := []rune(strings.Join(words, " ")); len(command) > 0 {
			text += fmt.Sprintf(" (%s)", string(command[:min(len(command), 80)]))
		}
	}
	if at, ok := startOf(pid); ok {
		text += ", running since " + at.Format("2006-01-02 15:04:05")
	}
	return text
}

// startOf is when a process began, by the system's own count of ticks since it was
// started itself: a hundred to the second on every Linux.
func startOf(pid int) (time.Time, bool) {
	stat, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", pid))
	system, err2 := os.ReadFile("/proc/stat")
	if err != nil || err2 != nil {
		return time.Time{}, false
	}
	part := strings.Fields(string(stat[strings.LastIndexByte(string(stat), ')')+1:]))
	_, boot, ok := strings.Cut(string(system), "\nbtime ")
	if len(part) < 20 || !ok {
		return time.Time{}, false
	}
	boot, _, _ = strings.Cut(boot, "\n")
	began, err := strconv.ParseInt(strings.TrimSpace(boot), 10, 64)
	ticks, err2 := strconv.ParseInt(part[19], 10, 64)
	return time.Unix(began+ticks/100, 0), err == nil && err2 == nil
}
