package bench

import (
	"os"
	"strings"
	"testing"
)

// TestUnpricedShown: a slot whose piece counts as free, since nobody has named a price, says so.
func TestUnpricedShown(t *testing.T) {
	const says = "no price given"
	job := demo(t)
	h, _ := serve(job, "")
	if n := strings.Count(get(h, "/").Body.String(), says); n != 0 {
		t.Errorf("with all prices: %q stands there %d times", says, n)
	}
	text, err := os.ReadFile(job)
	if err != nil {
		t.Fatal(err)
	}
	without := strings.Replace(string(text), "price = \"115.00\"\n", "", 1)
	if without == string(text) {
		t.Fatal("the demo has no such price")
	}
	if err := os.WriteFile(job, []byte(without), 0o666); err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(get(h, "/").Body.String(), says); n != 1 {
		t.Errorf("without one: %q stands there %d times", says, n)
	}
}
