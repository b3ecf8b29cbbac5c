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

// loader runs programs that were built for another system.
type loader struct {
	program string
	env     []string // beside what is set here, "NAME=value"
}

// command is a program for that system with its arguments; it ends with ctx.
func (l loader) command(ctx context.Context, bin string, args ...string) *exec.Cmd {
	cmd := exec.CommandContext(ctx, l.program, append([]string{bin}, args...)...)
	cmd.Env = append(os.Environ(), l.env...)
	return cmd
}

// TestOtherProcessor: on ARM the program plans what it plans here, to the byte.
func TestOtherProcessor(t *testing.T) {
	needs(t, "qemu-aarch64-static")
	samePlan(t, loader{program: "qemu-aarch64-static"}, buildFor(t, "linux", "arm64"))
}

// TestWindows: with a Windows program's loader and system calls, the program plans what it
// plans here, to the byte, records in files with Windows' line ends in a folder with a name of
// many letters, serves the page, and loses nothing when it is killed at it.
func TestWindows(t *testing.T) {
	needs(t, wine64, "x86_64-w64-mingw32-gcc")
	bin := buildFor(t, "windows", "amd64")
	wine := windows(t)
	samePlan(t, wine, bin)
	asOn(t, wine)

	job := filepath.Join(t.TempDir(), "Kühlergrill & Söhne", "job.toml")
	if err := os.CopyFS(filepath.Dir(job), os.DirFS("testdata/demo")); err != nil {
		t.Fatal(err)
	}
	crlf(t, filepath.Dir(job))
	does := func(args ...string) string {
		t.Helper()
		var out, errs bytes.Buffer
		cmd := wine.command(t.Context(), bin, args...)
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

// asOn tries, by the tests of the packages that read and write files, those that others have open,
// names with drives, and names in which capitals don't count.
func asOn(t *testing.T, wine loader) {
	t.Helper()
	for pkg, tests := range map[string][]string{"./catalog/disk": {"TestOpenElsewhere"},
		"./catalog": {"TestDrives", "TestCapitalsAreTheSame"}} {
		bin := filepath.Join(t.TempDir(), "tests.exe")
		cmd := exec.Command("go", "test", "-c", "-o", bin, pkg)
		cmd.Env = append(os.Environ(), "CGO_ENABLED=0", "GOOS=windows", "GOARCH=amd64")
		if text, err := cmd.CombinedOutput(); err != nil {
			t.Fatalf("%v: %s", err, text)
		}
		text, err := wine.command(t.Context(), bin, "-test.v", "-test.run", strings.Join(tests, "|")).CombinedOutput()
		for _, name := range tests {
			if err != nil || !bytes.Contains(text, []byte("--- PASS: "+name)) {
				t.Errorf("%s: %v: %s", name, err, text)
			}
		}
	}
}

// needs leaves a test out where something that it needs is not installed, and has it run beside
// others of its kind, which wait for other programs more than they work.
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
	t.Parallel()
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
func samePlan(t *testing.T, by loader, bin string, jobs ...string) {
	t.Helper()
	for _, job := range append(jobs, "testdata/demo") {
		want, err := exec.Command(build(t), "plan", "--full", job).Output()
		if err != nil {
			t.Fatal(err)
		}
		got, err := by.command(t.Context(), bin, "plan", "--full", job).Output()
		if err != nil || !bytes.Equal(got, want) {
			t.Errorf("%s: %v: %s\nhere it is: %s", job, err, got, want)
		}
	}
}

const wine64 = "/usr/lib/wine/wine64"

// windows is a loader of Windows' programs with settings of its own, and the one library in them
// that Go asks for and old versions of the loader don't have.
func windows(t *testing.T) loader {
	t.Helper()
	prefix := t.TempDir()
	wine := loader{wine64, []string{"WINEPREFIX=" + prefix, "WINEDEBUG=-all"}}
	if text, err := wine.command(t.Context(), "wineboot", "--init").CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, text)
	}
	t.Cleanup(func() {
		server := loader{"/usr/lib/wine/wineserver64", wine.env}
		server.command(context.Background(), "-k").Run()
	})
	library := filepath.Join(prefix, "drive_c", "windows", "system32", "bcryptprimitives.dll")
	if _, err := os.Stat(library); err == nil {
		return wine
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
	return wine
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
func benchUnder(t *testing.T, by loader, bin, job string) (link string, kill func()) {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	cmd := by.command(ctx, bin, "bench", "--port", "0", job)
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
