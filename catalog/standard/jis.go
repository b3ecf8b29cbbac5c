package standard

// Use is where a plated piece is used, as JIS H 8617 counts it (reprint, corrosion table).
type Use struct {
	Letter byte
	Means  string
	CASS   int // hours in the accelerated salt spray test; the rating afterwards is at least 9
}

// uses: JIS H 8617 reprint, corrosion table.
var uses = []Use{
	{'D', "dry indoor", 4}, {'C', "damp indoor", 8}, {'B', "outdoor", 16}, {'A', "harsh outdoor", 24},
}

// UseFor is the use nearest to a service condition. The pairing is our own reading of the
// words of both standards: 1 D, 2 C, 3 B, 4 and 5 A.
func UseFor(s Service) (Use, bool) {
	if s < 1 || s > 5 {
		return Use{}, false
	}
	return uses[min(int(s), len(uses))-1], true
}

// JIS is a grade of JIS H 8617 (reprint). On steel it is the least nickel, on zinc the
// least copper and nickel together.
type JIS struct {
	Grade  int
	Um     float64
	Double bool // the nickel has to be double
	Use    byte
}

// jisSteel: JIS H 8617 reprint, nickel on steel, bright for grades 1 to 5, double from 6;
// uses by grade 1-3 D, 4-5 C, 6-8 B. Its grades 8 and 9 were not seen.
var jisSteel = []JIS{
	{1, 3, false, 'D'}, {2, 5, false, 'D'}, {3, 10, false, 'D'}, {4, 15, false, 'C'},
	{5, 20, false, 'C'}, {6, 25, true, 'B'}, {7, 30, true, 'B'},
}

// jisZinc: JIS H 8617 reprint, zinc table, copper and nickel together; uses by grade 1-2 D,
// 3-4 C, 5-8 B. Grade 7 is for microcracked or microporous chromium, 8 is 50 with regular,
// or 30 double with the others. Grade 9, for use A, was not seen.
var jisZinc = []JIS{
	{1, 10, false, 'D'}, {2, 15, false, 'D'}, {3, 20, false, 'C'}, {4, 25, false, 'C'},
	{5, 30, false, 'B'}, {6, 40, false, 'B'}, {7, 40, false, 'B'}, {8, 50, false, 'B'},
}

// LeastJIS gives the lowest grade for the use nearest to a service condition; ok is false
// where none was seen.
func LeastJIS(b Basis, s Service) (j JIS, use Use, ok bool) {
	use, ok = UseFor(s)
	if !ok {
		return JIS{}, use, false
	}
	for _, j := range jisTable(b) {
		if j.Use == use.Letter {
			return j, use, true
		}
	}
	return JIS{}, use, false
}

func jisTable(b Basis) []JIS {
	switch b {
	case Steel:
		return jisSteel
	case ZincAlloy:
		return jisZinc
	}
	return nil
}
