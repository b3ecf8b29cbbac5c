package main

import (
	"bufio"
	"bytes"
	"context"
	"io"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"brightset/testdata/campaign"
)

// TestOtherProcessor: on ARM the program plans what it plans here, to the byte.
func TestOtherProcessor(t *testing.T) {
	needs(t, "qemu-aarch64-static")
	bin := buildFor(t, "linux", "arm64")
	samePlan(t, "qemu-aarch64-static", bin)
}

// TestWindows: with a Windows program's loader and system calls, the program plans what it
// plans here, to the byte, records in files with Windows' line ends in a folder with a name of
// many letters, serves the page, and loses nothing when it is killed at it.
func TestWindows(t *testing.T) {
	needs(t, "/usr/lib/wine/wine64", "x86_64-w64-mingw32-gcc")
	bin := buildFor(t, "windows", "amd64")
	windows(t)
	const wine = "/usr/lib/wine/wine64"
	samePlan(t, wine, bin)
	openElsewhere(t, wine)

	job := filepath.Join(t.TempDir(), "Kühlergrill & Söhne", "job.toml")
	if err := os.CopyFS(filepath.Dir(job), os.DirFS("testdata/demo")); err != nil {
		t.Fatal(err)
	}
	crlf(t, filepath.Dir(job))
	does := func(args ...string) string {
		t.Helper()
		var out, errs bytes.Buffer
		cmd := exec.Command(wine, append([]string{bin}, args...)...)
		cmd.Stdout, cmd.Stderr = &out, &errs
		if err := cmd.Run(); err != nil {
			t.Fatalf("%v: %v: %s%s", args, err, &out, &errs)
		}
		return out.String()
	}
	does("record", "lock", "grille", job, "--piece", "grille-1")
	if list := does("record", "list", job); !strings.Contains(list, "lock grille") {
		t.Errorf("not recorded: %s", list)
	}
	link, kill := benchUnder(t, wine, bin, job)
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	client := http.Client{Jar: jar, Timeout: 2 * time.Minute}
	answer := func(r *http.Response, err error) string {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		defer r.Body.Close()
		text, err := io.ReadAll(r.Body)
		if err != nil || r.StatusCode != http.StatusOK {
			t.Fatalf("%d, %v: %.300s", r.StatusCode, err, text)
		}
		return string(text)
	}
	page := answer(client.Get(link))
	at, _, _ := strings.Cut(link, "/?")
	_, rest, ok := strings.Cut(page, `name="base" value="`)
	if !ok {
		t.Fatalf("no page to act at: %.300s", page)
	}
	base, _, _ := strings.Cut(rest, `"`)
	answer(client.PostForm(at+"/turn", url.Values{"which": {"undo"}, "base": {base}, "back": {"/"}}))
	kill()
	if list := does("record", "list", job); strings.Contains(list, "lock grille") {
		t.Errorf("what was done at the page is lost: %s", list)
	}
	samePlan(t, wine, bin, job)
}

// openElsewhere tries, by the tests of the package that writes files, those that others have open.
func openElsewhere(t *testing.T, wine string) {
	t.Helper()
	bin := filepath.Join(t.TempDir(), "disk.exe")
	cmd := exec.Command("go", "test", "-c", "-o", bin, "./catalog/disk")
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0", "GOOS=windows", "GOARCH=amd64")
	if text, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, text)
	}
	if text, err := exec.Command(wine, bin, "-test.v", "-test.run", "OpenElsewhere").CombinedOutput(); err != nil ||
		!bytes.Contains(text, []byte("--- PASS: TestOpenElsewhere")) {
		t.Errorf("%v: %s", err, text)
	}
}

// needs leaves a test out where something that it needs is not installed.
func needs(t *testing.T, programs ...string) {
	t.Helper()
	if !campaign.Long() {
		t.Skip("builds for another system: at full size only")
	}
	for _, p := range programs {
		if _, err := exec.LookPath(p); err != nil {
			t.Skipf("%s is not there", p)
		}
	}
}

// buildFor makes the program for another system, without C.
func buildFor(t *testing.T, system, processor string) string {
	t.Helper()
	bin := filepath.Join(t.TempDir(), "brightset.exe")
	cmd := exec.Command("go", "build", "-o", bin, "./cmd/brightset")
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0", "GOOS="+system, "GOARCH="+processor)
	if text, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, text)
	}
	return bin
}

// samePlan compares the plans of the demo, and of jobs, that a program for another system makes
// with those of this one.
func samePlan(t *testing.T, loader, bin string, jobs ...string) {
	t.Helper()
	for _, job := range append(jobs, "testdata/demo") {
		want, err := exec.Command(build(t), "plan", "--full", job).Output()
		if err != nil {
			t.Fatal(err)
		}
		got, err := exec.Command(loader, bin, "plan", "--full", job).Output()
		if err != nil || !bytes.Equal(got, want) {
			t.Errorf("%s: %v: %s\nhere it is: %s", job, err, got, want)
		}
	}
}

// windows makes a folder for the loader's settings, with the one library in it that Go asks
// for and old versions of the loader don't have.
func windows(t *testing.T) {
	t.Helper()
	prefix := t.TempDir()
	t.Setenv("WINEPREFIX", prefix)
	t.Setenv("WINEDEBUG", "-all")
	if text, err := exec.Command("/usr/lib/wine/wine64", "wineboot", "--init").CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, text)
	}
	t.Cleanup(func() { exec.Command("/usr/lib/wine/wineserver64", "-k").Run() })
	library := filepath.Join(prefix, "drive_c", "windows", "system32", "bcryptprimitives.dll")
	if _, err := os.Stat(library); err == nil {
		return
	}
	source := filepath.Join(prefix, "random.c")
	if err := os.WriteFile(source, []byte("#include <windows.h>\n"+
		"BOOLEAN WINAPI SystemFunction036(PVOID, ULONG);\n"+
		"__declspec(dllexport) BOOL WINAPI ProcessPrng(PBYTE to, SIZE_T n) { return SystemFunction036(to, (ULONG)n); }\n"),
		0o600); err != nil {
		t.Fatal(err)
	}
	if text, err := exec.Command("x86_64-w64-mingw32-gcc", "-shared", "-o", library, source,
		"-ladvapi32").CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, text)
	}
}

// crlf gives the files of a folder the line ends that editors on Windows write.
func crlf(t *testing.T, dir string) {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(dir, "*.toml"))
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(f, bytes.ReplaceAll(text, []byte("\n"), []byte("\r\n")), 0o600); err != nil {
			t.Fatal(err)
		}
	}
}

// benchUnder serves a job and gives the link, and what ends the program as a power cut would.
func benchUnder(t *testing.T, loader, bin, job string) (link string, kill func()) {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	cmd := exec.CommandContext(ctx, loader, bin, "bench", "--port", "0", job)
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	kill = func() { stop(); cmd.Wait() }
	t.Cleanup(kill)
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		t.Fatal(err)
	}
	_, link, _ = strings.Cut(line, "at ")
	link, _, _ = strings.Cut(link, " until")
	return link, kill
}
