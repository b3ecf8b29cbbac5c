package bench

import (
	"encoding/json"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"brightset/catalog"
)

// TestEdges: where the sliders ask for what nothing meets, the page names the edge: with it something fits, and with
// a step beyond it nothing does.
func TestEdges(t *testing.T) {
	h, _ := serve(demo(t), "")
	fits := func(query string) bool {
		t.Helper()
		var p point
		w := get(h, "/what-if.json?"+query)
		if err := json.Unmarshal(w.Body.Bytes(), &p); err != nil {
			t.Fatal(query, w.Body)
		}
		return p.Expected > 0
	}
	for _, c := range []struct {
		key, asked, words string
		beyond            float64
	}{
		{"budget", "900", `below ([0-9.]+) nothing fits`, -0.01},
		{"budget", "10", `below ([0-9.]+) nothing fits`, -0.01},
		{"mean", "99", `above a mean of ([0-9.]+) nothing fits`, 0.01},
		{"completion", "99.9", `above a chance of ([0-9.]+)% nothing fits`, 0.01},
		{"days", "70", `in fewer than ([0-9]+) days nothing fits`, -1},
	} {
		query := c.key + "=" + c.asked
		if fits(query) {
			t.Errorf("%s: something fits", query)
			continue
		}
		said := get(h, "/edge.json?"+query).Body.String()
		m := regexp.MustCompile(c.words).FindStringSubmatch(said)
		if m == nil {
			t.Errorf("%s: no edge in %s", query, said)
			continue
		}
		var at float64
		fmt.Sscan(m[1], &at)
		if inside := fmt.Sprintf("%s=%g", c.key, at); !fits(inside) {
			t.Errorf("%s: at the edge, %s, nothing fits", query, inside)
		}
		if outside := fmt.Sprintf("%s=%g", c.key, at+c.beyond); fits(outside) {
			t.Errorf("%s: beyond the edge, %s, something fits", query, outside)
		}
	}
}

// TestSlidersStart: the sliders stand where the plan is, and say beside it what is asked for.
func TestSlidersStart(t *testing.T) {
	job := demo(t)
	s, _ := server(job, "", "")
	st := loaded(t, s)
	p, err := s.plan(t.Context(), st)
	if err != nil {
		t.Fatal(err)
	}
	all := slidersOf(p)
	if want := fmt.Sprint((int64(p.Outlay) + 999) / 1000 * 10); all[1].At != want ||
		all[1].Asked != "asked for: at most "+catalog.FormatMoney(st.Job.Budget.V) {
		t.Errorf("%+v, want %s", all[1], want)
	}
	if all[0].At != "85.5" { // 85.7
		t.Errorf("%+v", all[0])
	}
	text := get(s.Handler(), "/what-if").Body.String()
	for _, one := range all {
		if !strings.Contains(text, fmt.Sprintf(`name="%s" type="range" min="0" max="%s" step="%s" value="%s"`,
			one.ID, one.Most, one.Step, one.At)) {
			t.Errorf("%+v is not on the page", one)
		}
	}
	st.Job.Budget, st.Job.WithinDays = catalog.Val[catalog.Cents]{}, catalog.Val[int]{}
	for _, i := range []int{1, 3} {
		if one := slidersOf(p)[i]; one.Asked != "nothing is asked" {
			t.Errorf("%+v", one)
		}
	}
}
