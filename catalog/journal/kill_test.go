//go:build unix

package journal

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"brightset/testdata/campaign"
)

// killed names the journal that a child of the test writes until it is killed.
const killed = "BRIGHTSET_TEST_JOURNAL"

// TestMain is the child where the variable is set: it records without end and says the
// number of every entry once it is confirmed.
func TestMain(m *testing.M) {
	path := os.Getenv(killed)
	if path == "" {
		os.Exit(m.Run())
	}
	for n := 1; ; n++ {
		w, err := Open(path)
		if err != nil {
			fmt.Println("open:", err)
			os.Exit(1)
		}
		e, err := w.Append(entry(n))
		if err != nil {
			fmt.Println("append:", err)
			os.Exit(1)
		}
		w.Close()
		os.Stdout.WriteString(strconv.Itoa(e.Seq) + "\n")
	}
}

// TestKilled kills a writer many times at any moment: every entry it confirmed is there,
// in its order, and no line is in the way of the next writer.
func TestKilled(t *testing.T) {
	kills := campaign.Cases(120, 1000)
	r := rand.New(rand.NewPCG(1, 2))
	dir, all := t.TempDir(), 0
	for k := 0; k < kills; {
		path := filepath.Join(dir, fmt.Sprintf("%d.journal", k))
		confirmed := 0
		for range 20 { // on one file, so that one life goes on from the one before
			confirmed = max(confirmed, killOne(t, path, r))
			k++
		}
		l := load(t, path)
		if len(l.Problems) > 0 || len(l.Entries) < confirmed {
			t.Fatalf("after %d kills: %d entries, %d confirmed, problems %v", k, len(l.Entries), confirmed, l.Problems)
		}
		all += confirmed // the last number of a file: 20 lives
	}
	if all < kills/2 {
		t.Errorf("only %d entries were confirmed before %d kills", all, kills)
	}
}

// killOne lets a child write for a moment and kills it; the last entry it confirmed.
func killOne(t *testing.T, path string, r *rand.Rand) int {
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), killed+"="+path)
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	var timer *time.Timer
	last := 0
	for lines := bufio.NewScanner(out); lines.Scan(); {
		n, err := strconv.Atoi(lines.Text())
		if err != nil {
			t.Fatal(lines.Text())
		}
		if last = n; timer == nil { // it is up and writing
			timer = time.AfterFunc(time.Duration(r.IntN(4000))*time.Microsecond, func() { cmd.Process.Kill() })
			defer timer.Stop()
		}
	}
	cmd.Wait()
	return last
}
