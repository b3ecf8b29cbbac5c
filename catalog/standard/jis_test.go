package standard

import "testing"

func TestJIS(t *testing.T) {
	// JIS H 8617 reprint: bright nickel on steel by grade, double from 6 on
	for i, want := range []float64{3, 5, 10, 15, 20, 25, 30} {
		if j, ok := GradeJIS(Steel, i+1); !ok || j.Um != want || j.Double != (i+1 >= 6) {
			t.Errorf("steel, grade %d: %+v", i+1, j)
		}
	}
	// JIS H 8617 reprint, zinc table: copper and nickel together
	for i, want := range []float64{10, 15, 20, 25, 30, 40, 40, 50} {
		if j, ok := GradeJIS(ZincAlloy, i+1); !ok || j.Um != want {
			t.Errorf("zinc, grade %d: %+v", i+1, j)
		}
	}
	// uses by grade (same): steel 1-3 D, 4-5 C, 6-8 B; zinc 1-2 D, 3-4 C, 5-8 B
	for b, want := range map[Basis]string{Steel: "DDDCCBB", ZincAlloy: "DDCCBBBB"} {
		for i := range want {
			if j, _ := GradeJIS(b, i+1); j.Use != want[i] {
				t.Errorf("%s, grade %d is for use %c, want %c", b, i+1, j.Use, want[i])
			}
		}
		for _, none := range []int{-1, 0, len(want) + 1} {
			if j, ok := GradeJIS(b, none); ok {
				t.Errorf("%s has a grade %d: %+v", b, none, j)
			}
		}
	}
	if _, ok := GradeJIS(CopperAlloy, 1); ok {
		t.Error("no grades of copper alloys were seen")
	}
}

func TestUses(t *testing.T) {
	// JIS H 8617 reprint, corrosion table: CASS for use A, B, C, D 24, 16, 8, 4 h
	hours := map[byte]int{'A': 24, 'B': 16, 'C': 8, 'D': 4}
	for s, want := range map[Service]byte{1: 'D', 2: 'C', 3: 'B', 4: 'A', 5: 'A'} {
		if u, ok := UseFor(s); !ok || u.Letter != want || u.CASS != hours[want] {
			t.Errorf("SC%d: %+v, want use %c", s, u, want)
		}
	}
	for _, c := range []struct {
		b  Basis
		s  Service
		um float64
	}{{Steel, 1, 3}, {Steel, 2, 15}, {Steel, 3, 25}, {ZincAlloy, 1, 10}, {ZincAlloy, 2, 20}, {ZincAlloy, 3, 30}} {
		if j, _, ok := LeastJIS(c.b, c.s); !ok || j.Um != c.um {
			t.Errorf("%s SC%d: %+v, want %v um", c.b, c.s, j, c.um)
		}
	}
	for _, s := range []Service{0, 4, 5, 6} { // the grades for use A were not seen
		if j, _, ok := LeastJIS(ZincAlloy, s); ok {
			t.Errorf("zinc SC%d: %+v", s, j)
		}
	}
}

// GradeJIS gives a grade for a basis metal; ok is false where it was not seen.
func GradeJIS(b Basis, grade int) (j JIS, ok bool) {
	for _, j := range jisTable(b) {
		if j.Grade == grade {
			return j, true
		}
	}
	return JIS{}, false
}
