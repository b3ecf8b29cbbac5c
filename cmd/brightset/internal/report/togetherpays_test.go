package report

import (
	"fmt"
	"testing"
)

func TestJobRuns(t *testing.T) {
	name := func(j int) string { return fmt.Sprintf("job %d", j+1) }
	for _, c := range []struct {
		list []jobText
		want string
	}{
		{nil, ""},
		{[]jobText{{0, "1.00"}}, "job 1 1.00"},
		{[]jobText{{0, "1.00"}, {1, "1.00"}}, "job 1 1.00, job 2 1.00"},
		{[]jobText{{0, "1.00"}, {1, "1.00"}, {2, "1.00"}}, "job 1 to job 3 each 1.00"},
		{[]jobText{{0, "2.00"}, {1, "1.00"}, {2, "1.00"}, {3, "1.00"}, {4, "0.99"}},
			"job 1 2.00, job 2 to job 4 each 1.00, job 5 0.99"},
		{[]jobText{{0, "1.00"}, {1, "1.00"}, {3, "1.00"}, {4, "1.00"}}, "job 1 1.00, job 2 1.00, job 4 1.00, job 5 1.00"},
	} {
		if got := jobRuns(c.list, name); got != c.want {
			t.Errorf("%v: %q, want %q", c.list, got, c.want)
		}
	}
}
