package standard

import "testing"

func TestCodes(t *testing.T) {
	// Surface Finishing Guidebook 2011-12 table V, and the marking note of GB/T 9797
	for text, want := range map[string]Code{
		"Fe/Ni35d Cr mp":       {Basis: Steel, Nickel: 35, NickelType: "d", ChromeType: "mp"},
		"Fe/Cu20a Ni30b Cr mc": {Basis: Steel, Copper: 20, CopperType: "a", Nickel: 30, NickelType: "b", ChromeType: "mc"},
		"Zn/Cu5 Ni25d Cr r":    {Basis: ZincAlloy, Copper: 5, Nickel: 25, NickelType: "d", ChromeType: "r"},
		"Fe/Ni20b Cr r0.5":     {Basis: Steel, Nickel: 20, NickelType: "b", ChromeType: "r", Chrome: 0.5},
		"Cu/Ni12.5s Cr mp":     {Basis: CopperAlloy, Nickel: 12.5, NickelType: "s", ChromeType: "mp"},
	} {
		got, err := Parse(text)
		if err != nil || got != want || got.String() != text {
			t.Errorf("%s: %+v %v, written %s", text, got, err, got)
		}
	}
	// the thickness of chromium is left out unless it differs from 0.3 um (the same table)
	if c, err := Parse("Fe/Ni35d Cr mp0.3"); err != nil || c.String() != "Fe/Ni35d Cr mp" || c.ChromeUm() != 0.3 {
		t.Errorf("0.3 um of chromium: %s %v", c, err)
	}
	if c := (Code{Basis: Steel, Nickel: 35, NickelType: "d", ChromeType: "mp",
		Chrome: 0.3}); c.String() != "Fe/Ni35d Cr mp" {
		t.Errorf("0.3 um of chromium is written: %s", c)
	}
	for _, bad := range []string{
		"", "Fe", "Fe/", "/Ni35d Cr mp", "Fe/Ni35 Cr mp", "Fe/Nid Cr mp", "Fe/Ni35d Cr x", "Fe/Ni35d", "Fe/Ni35d Cr mp x",
		"Fe/Cu Ni35d Cr mp", "Fe/Ni-35d Cr mp", "Fe/Ni35d Cr r0", "Fe/Ni35dd Cr mp", "Fe/Cu5/ Ni35d Cr r",
		"Fe/Cu5b Ni35d Cr r",
		"F e/Ni35d Cr r", "F\x00/Ni35d Cr r", "Fe/Ni3.5.5d Cr r", "Fe/Ni1000d Cr r", "Fe/Ni35d Cr 0.3", "Fe/Ni35d cr mp",
		"Iron/Ni35d Cr r",
	} {
		if c, err := Parse(bad); err == nil {
			t.Errorf("%q is taken as %+v", bad, c)
		}
	}
}

// FuzzParse: whatever is read as a code is written as a code that means the same.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"Fe/Ni35d Cr mp", "Fe/Cu20a Ni30b Cr mc", "Zn/Cu.5 Ni025d  Cr r0.30",
		"Fe/Ni999.999s Cr r1e3"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		c, err := Parse(s)
		if err != nil {
			return
		}
		again, err := Parse(c.String())
		if err != nil || again != c || again.String() != c.String() {
			t.Errorf("%q is %+v, written %q and read as %+v, %v", s, c, c.String(), again, err)
		}
	})
}
