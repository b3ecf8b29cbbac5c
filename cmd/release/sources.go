package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// sources are the folders of what CLP is compiled from.
type sources struct{ coinUtils, clp string }

// fetch brings Debian's source packages, whose signatures apt checks, with lists of its own:
// what this machine installs from stays as it is.
func fetch(work string) (*sources, error) {
	dir := filepath.Join(work, "sources")
	if s, err := unpacked(dir); err == nil {
		return s, nil
	}
	release, err := os.ReadFile("/etc/os-release")
	if err != nil {
		return nil, fmt.Errorf("the sources of CLP come from Debian: %w; or, without C: --without-c", err)
	}
	suite := codename(release)
	if suite == "" {
		return nil, fmt.Errorf("/etc/os-release names no VERSION_CODENAME; the sources of CLP come from Debian")
	}
	lists, parts := filepath.Join(dir, "lists"), filepath.Join(dir, "parts")
	for _, d := range []string{filepath.Join(lists, "partial"), parts} {
		if err := os.MkdirAll(d, 0o755); err != nil {
			return nil, err
		}
	}
	conf := filepath.Join(dir, "apt.conf")
	for file, text := range map[string]string{
		conf: fmt.Sprintf("Dir::Etc::sourcelist \"/dev/null\";\nDir::Etc::sourceparts %q;\nDir::State::lists %q;\n"+
			"APT::Sandbox::User \"root\";\n", parts, lists),
		filepath.Join(parts, "sources.list"): "deb-src [signed-by=/usr/share/keyrings/debian-archive-keyring.gpg] " +
			"http://deb.debian.org/debian " + suite + " main\n",
	} {
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			return nil, err
		}
	}
	for _, args := range [][]string{{"apt-get", "update"}, {"apt-get", "source", "coinutils", "clp"}} {
		cmd := exec.Command(args[0], args[1:]...)
		cmd.Dir, cmd.Env = dir, append(os.Environ(), "APT_CONFIG="+conf)
		if text, err := cmd.CombinedOutput(); err != nil {
			return nil, fmt.Errorf("%s: %w: %s", strings.Join(args, " "), err, last(text))
		}
	}
	return unpacked(dir)
}

// unpacked finds both folders.
func unpacked(dir string) (*sources, error) {
	s := &sources{}
	for pattern, to := range map[string]*string{"coinutils-*": &s.coinUtils, "clp-*": &s.clp} {
		found, err := filepath.Glob(filepath.Join(dir, pattern))
		if err != nil {
			return nil, err
		}
		for _, f := range found {
			if _, err := os.Stat(filepath.Join(f, "configure")); err == nil {
				*to = f
			}
		}
		if *to == "" {
			return nil, fmt.Errorf("no sources %s in %s", pattern, dir)
		}
	}
	return s, nil
}

// codename is the release of Debian that a machine says it has.
func codename(osRelease []byte) string {
	for _, line := range strings.Split(string(osRelease), "\n") {
		if name, ok := strings.CutPrefix(line, "VERSION_CODENAME="); ok {
			return strings.Trim(name, `"`)
		}
	}
	return ""
}

// logged runs a command and keeps what it says; where it fails, the end of that is told.
func logged(dir, log string, args ...string) error {
	cmd := exec.Command(args[0], args[1:]...)
	cmd.Dir = dir
	text, err := cmd.CombinedOutput()
	f, openErr := os.OpenFile(log, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o644)
	if openErr == nil {
		_, openErr = f.Write(text)
		f.Close()
	}
	if err != nil {
		return fmt.Errorf("%s: %w: %s; all it said: %s", filepath.Base(args[0]), err, last(text), log)
	}
	return openErr
}

// last is the last line that says something.
func last(text []byte) string {
	lines := strings.Split(string(bytes.TrimSpace(text)), "\n")
	return lines[len(lines)-1]
}
