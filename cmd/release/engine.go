package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// engine compiles CLP for a host, once, and gives the folder that pkg-config looks in.
//
// COIN-OR's own configure scripts do the work; what they would look for beside CoinUtils and
// Clp (linear algebra, compression, other solvers) is left out, which leaves one library each
// that needs nothing but C++'s.
func (t target) engine(work string) (folder string, err error) {
	prefix := filepath.Join(work, t.host)
	folder = filepath.Join(prefix, "pkg")
	pc := filepath.Join(folder, "clp.pc")
	if _, err := os.Stat(pc); err == nil {
		return folder, nil
	}
	sources, err := fetch(work)
	if err != nil {
		return "", err
	}
	fmt.Fprintf(os.Stderr, "CLP for %s is being compiled: some minutes, this once.\n", t.host)
	bare := []string{"--host=" + t.host, "--prefix=" + prefix, "--enable-static", "--disable-shared",
		"--without-blas", "--without-lapack"}
	for _, c := range []struct {
		sources string
		flags   []string
	}{
		{sources.coinUtils, []string{"--without-glpk", "--disable-bzlib", "--disable-zlib"}},
		{sources.clp, []string{"--without-osi", "--without-asl", "--disable-pkg-config", "COIN_SKIP_PROJECTS=Sample Data",
			"--with-coinutils-lib=-L" + prefix + "/lib -lCoinUtils", "--with-coinutils-incdir=" + prefix + "/include/coin"}},
	} {
		in := filepath.Join(prefix, "build", filepath.Base(c.sources))
		done := filepath.Join(in, "release.done")
		if _, err := os.Stat(done); err == nil {
			continue // before the rest was broken off
		}
		if err := compile(c.sources, in, append(bare, c.flags...)); err != nil {
			return "", err
		}
		if err := os.WriteFile(done, nil, 0o644); err != nil {
			return "", err
		}
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return "", err
	}
	// Written last: where it is, all before it was done.
	return folder, os.WriteFile(pc, fmt.Appendf(nil, `Name: clp
Description: the linear programming engine, static
Version: 1.17
Libs: -L%[1]s/lib -lClpSolver -lClp -lCoinUtils -lstdc++ -static
Cflags: -I%[1]s/include/coin
`, prefix), 0o644)
}

// compile configures, makes and installs what lies in a folder of sources, in another one.
func compile(sources, in string, flags []string) error {
	if err := os.RemoveAll(in); err != nil { // of a time that was broken off
		return err
	}
	if err := os.MkdirAll(in, 0o755); err != nil {
		return err
	}
	if err := nameHosts(sources, hostNames); err != nil {
		return err
	}
	log := filepath.Join(in, "release.log")
	for _, args := range [][]string{append([]string{filepath.Join(sources, "configure")}, flags...), {"make", "-j2"},
		{"make", "install"}} {
		if err := logged(in, log, args...); err != nil {
			return err
		}
	}
	return nil
}

// hostNames is where Debian keeps the two scripts that know what systems and processors are called.
const hostNames = "/usr/share/misc"

// nameHosts puts Debian's scripts in the place of those that come with sources, as Debian does
// when it builds them: theirs are older than the processors of today.
func nameHosts(sources, from string) error {
	return filepath.WalkDir(sources, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.Name() != "config.sub" && d.Name() != "config.guess" {
			return err
		}
		text, err := os.ReadFile(filepath.Join(from, d.Name()))
		if err != nil {
			return err
		}
		return os.WriteFile(path, text, 0o755)
	})
}
