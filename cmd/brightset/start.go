package main

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
)

// start is what the program does when it is called without a word, as by a double click: the
// page for the bench in the browser, on the job here, on the last one, or on a new one.
func start(c *call) (int, error) {
	path := firstJob()
	o := benchOptions{port: benchPort, show: showInBrowser}
	c.args = []string{path}
	fmt.Fprintf(c.err, "This window is the program; the job is %s.\nTo stop: Ctrl-C here, close this window, or "+
		"\"Stop the bench\" at the foot of the page.\n", path)
	code, err := o.run(c)
	if err != nil && runtime.GOOS == "windows" { // the window would be gone before anybody has read why
		fmt.Fprintf(c.err, "brightset: %s\nPress Enter to close this window.\n", err)
		bufio.NewReader(c.in).ReadString('\n')
	}
	return code, err
}

// firstJob is the job to begin with: the one of this folder, else the last one at the bench,
// else one to be begun among the user's documents.
func firstJob() string {
	if _, err := os.Stat("job.toml"); err == nil {
		return "job.toml"
	}
	if last := remembered(); last != "" {
		return last
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return "job.toml"
	}
	if documents := filepath.Join(home, "Documents"); isFolder(documents) {
		home = documents
	}
	return filepath.Join(home, "brightset", "job.toml")
}

func isFolder(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}

// memory is the file that keeps which job was last at the bench, among the user's settings.
func memory() (string, error) {
	dir, err := os.UserConfigDir()
	return filepath.Join(dir, "brightset", "last-job"), err
}

// remembered is the job that was last at the bench, "" where there is none any more.
func remembered() string {
	file, err := memory()
	if err != nil {
		return ""
	}
	text, err := os.ReadFile(file)
	path := strings.TrimSuffix(string(text), "\n")
	if err != nil || !filepath.IsAbs(path) {
		return ""
	}
	if info, err := os.Stat(path); err != nil || !info.Mode().IsRegular() {
		return ""
	}
	return path
}

// remember keeps which job is at the bench. Where it can't be kept, the next start without a
// job begins elsewhere, which is no reason to stop work.
func remember(path string) {
	file, err := memory()
	if err != nil {
		return
	}
	if path, err = filepath.Abs(path); err != nil {
		return
	}
	if os.MkdirAll(filepath.Dir(file), 0o700) == nil {
		_ = os.WriteFile(file, []byte(path+"\n"), 0o600)
	}
}

// showInBrowser asks the system to open a link.
func showInBrowser(link string) error {
	args := map[string][]string{
		"windows": {"rundll32", "url.dll,FileProtocolHandler"},
		"darwin":  {"open"},
	}[runtime.GOOS]
	if args == nil {
		args = []string{"xdg-open"}
	}
	cmd := exec.Command(args[0], append(args[1:], link)...)
	if err := cmd.Start(); err != nil {
		return err
	}
	go cmd.Wait() // nobody waits for the browser
	return nil
}
