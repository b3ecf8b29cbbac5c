package catalog

import (
	"errors"
	"testing"
)

// A mean over no weight is neither met nor failed, so it is no answer to anything.
func TestNoWeightAtAll(t *testing.T) {
	load := func(a, b string) error {
		_, err := loadFrom(map[string][]byte{"job.toml": []byte("[job]\ntitle = \"x\"\n[slot.a]\nweight = " + a +
			"\n[slot.b]\nweight = " + b + "\n")})
		return err
	}
	var m *Mistakes
	if err := load("0", "0"); !errors.As(err, &m) || len(m.List) != 1 || m.List[0].Line != 3 ||
		m.List[0].Message != "no slot has any weight, so the set has no mean grade" {
		t.Errorf("%v", err)
	}
	if err := load("0", "0.01"); err != nil {
		t.Error(err)
	}
}
