package standard

import "testing"

func TestChoose(t *testing.T) {
	for _, c := range []struct {
		basis   Basis
		service Service
		chrome  string
		want    string
		line    Service
		source  string
	}{
		// read in the Surface Finishing Guidebook 2011-12, table V, after ASTM B456. Its page
		// misprints the top row of steel as SC4; SC4 has a row of its own below it.
		{Steel, 5, "mp", "Fe/Ni35d Cr mp", 5, SeenIn}, {Steel, 5, "mc", "Fe/Ni35d Cr mc", 5, SeenIn},
		// It also misprints one entry of SC4 as 40d mp. In every other row regular chromium
		// needs 5 um or more of nickel above mp and mc: 40d is that of r, 30d that of mc.
		{Steel, 4, "r", "Fe/Ni40d Cr r", 4, SeenIn}, {Steel, 4, "mc", "Fe/Ni30d Cr mc", 4, SeenIn},
		{Steel, 3, "r", "Fe/Ni30d Cr r", 3, SeenIn}, {Steel, 3, "mc", "Fe/Ni25d Cr mc", 3, SeenIn},
		// ASTM B456, from memory
		{Steel, 4, "mp", "Fe/Ni30d Cr mp", 4, Recalled}, {Steel, 3, "mp", "Fe/Ni25d Cr mp", 3, Recalled},
		{Steel, 2, "r", "Fe/Ni20b Cr r", 2, Recalled}, {Steel, 2, "mc", "Fe/Ni15b Cr mc", 2, Recalled},
		{Steel, 2, "mp", "Fe/Ni15b Cr mp", 2, Recalled}, {Steel, 1, "r", "Fe/Ni10b Cr r", 1, Recalled},
		{ZincAlloy, 5, "mp", "Zn/Cu5 Ni35d Cr mp", 5, Recalled}, {ZincAlloy, 5, "mc", "Zn/Cu5 Ni35d Cr mc", 5, Recalled},
		{ZincAlloy, 4, "r", "Zn/Cu5 Ni35d Cr r", 4, Recalled}, {ZincAlloy, 4, "mp", "Zn/Cu5 Ni30d Cr mp", 4, Recalled},
		{ZincAlloy, 4, "mc", "Zn/Cu5 Ni30d Cr mc", 4, Recalled}, {ZincAlloy, 3, "r", "Zn/Cu5 Ni25d Cr r", 3, Recalled},
		{ZincAlloy, 3, "mp", "Zn/Cu5 Ni20d Cr mp", 3, Recalled}, {ZincAlloy, 3, "mc", "Zn/Cu5 Ni20d Cr mc", 3, Recalled},
		{ZincAlloy, 2, "r", "Zn/Cu5 Ni20b Cr r", 2, Recalled}, {ZincAlloy, 2, "mp", "Zn/Cu5 Ni15b Cr mp", 2, Recalled},
		{ZincAlloy, 2, "mc", "Zn/Cu5 Ni15b Cr mc", 2, Recalled}, {ZincAlloy, 1, "r", "Zn/Cu5 Ni10b Cr r", 1, Recalled},
		{CopperAlloy, 4, "r", "Cu/Ni30d Cr r", 4, Recalled}, {CopperAlloy, 4, "mp", "Cu/Ni25d Cr mp", 4, Recalled},
		{CopperAlloy, 4, "mc", "Cu/Ni25d Cr mc", 4, Recalled}, {CopperAlloy, 2, "r", "Cu/Ni15b Cr r", 2, Recalled},
		{CopperAlloy, 1, "r", "Cu/Ni5b Cr r", 1, Recalled},
		// no line of its own: that of the next harder service
		{CopperAlloy, 3, "r", "Cu/Ni30d Cr r", 4, Recalled}, {Steel, 1, "mp", "Fe/Ni15b Cr mp", 2, Recalled},
	} {
		got, ok := Choose(c.basis, c.service, c.chrome)
		if !ok || got.Code.String() != c.want || got.For != c.line || got.Source != c.source {
			t.Errorf("%s SC%d %s: %+v %v, want %s", c.basis, c.service, c.chrome, got, ok, c.want)
		}
		if code, err := Parse(c.want); err != nil || code != got.Code {
			t.Errorf("%s reads as %+v", c.want, code)
		}
	}
	for _, c := range []struct {
		b Basis
		s Service
	}{{"Al", 3}, {Steel, 5}, {ZincAlloy, 5}, {Steel, 6}, {Steel, 0}, {Steel, -1}, {CopperAlloy, 5}} {
		if got, ok := Choose(c.b, c.s, "r"); ok {
			t.Errorf("%s SC%d: %+v, and no table has it", c.b, c.s, got)
		}
	}
}

// Harder use never asks for less, and the thinner kinds of chromium never for more nickel
// than regular.
func TestTableIsInOrder(t *testing.T) {
	for _, b := range []Basis{Steel, ZincAlloy, CopperAlloy} {
		for _, chrome := range []string{"r", "mp", "mc"} {
			last := 0.0
			for s := Service(1); s <= 5; s++ {
				c, ok := Choose(b, s, chrome)
				if !ok {
					continue
				}
				if c.Code.Nickel < last || c.For < s {
					t.Errorf("%s SC%d %s asks for less than the service before", b, s, chrome)
				}
				last = c.Code.Nickel
				if r, ok := Choose(b, s, "r"); ok && r.For == c.For && c.Code.Nickel > r.Code.Nickel {
					t.Errorf("%s SC%d: more nickel under %s than under regular", b, s, chrome)
				}
			}
		}
	}
}

func TestCopperOn(t *testing.T) {
	// ASTM B456 (2003, 2011, 2017) clause 1.1: five grades; zinc and aluminium alloys always
	// get copper first; copper alloys and stainless need none
	if len(ServiceWords) != 5 {
		t.Errorf("%d service conditions", len(ServiceWords))
	}
	for metal, want := range map[string]Copper{
		"zinc": CopperFirst, "pot metal": CopperFirst, "aluminium": CopperFirst,
		"brass": CopperNeedless, "stainless steel": CopperNeedless, "steel": CopperNotSaid,
	} {
		if CopperOn(metal) != want {
			t.Errorf("copper on %s: %d", metal, CopperOn(metal))
		}
	}
	for s := Service(1); s <= 5; s++ {
		if c, ok := Choose(ZincAlloy, s, "mp"); ok && c.Code.Copper <= 0 {
			t.Errorf("SC%d on zinc without copper", s)
		}
		if c, ok := Choose(CopperAlloy, s, "mp"); ok && c.Code.Copper != 0 {
			t.Errorf("SC%d on a copper alloy with copper", s)
		}
	}
}

func TestChromium(t *testing.T) {
	// ASTM B456-03: at least 0.25 um, 0.13 allowed for SC1, at most 0.5 over particle nickel
	if LeastChromeAt(1) != 0.13 || LeastChromeAt(2) != 0.25 || LeastChromeAt(5) != 0.25 || MostChromeOverParticles != 0.5 {
		t.Error("chromium of ASTM B456-03")
	}
	// the three standards disagree: ASTM B456-03, guidebook table V, JIS H 8617
	for i, want := range []float64{0.25, 0.3, 0.1} {
		if LeastChrome[i].Um != want {
			t.Errorf("%s: %v um, want %v", LeastChrome[i].Source, LeastChrome[i].Um, want)
		}
	}
	if LeastChrome[1].Um != DefaultChrome {
		t.Error("the rule of the code has two values")
	}
	if SemiBrightShare != 0.60 { // Surface Finishing Guidebook, table IV
		t.Error("share of semi-bright nickel", SemiBrightShare)
	}
}

func TestService(t *testing.T) {
	for text, want := range map[string]Service{"mild": 1, "moderate": 2, "severe": 3, "very severe": 4,
		"extended severe": 5, "SC3": 3, "sc5": 5} {
		if got, ok := ParseService(text); !ok || got != want || got.Means() == "" {
			t.Errorf("%s: %d", text, got)
		}
	}
	for _, bad := range []string{"", "SC0", "SC6", "3", "Severe ", "SC"} {
		if got, ok := ParseService(bad); ok {
			t.Errorf("%q is taken as %s", bad, got)
		}
	}
	if Service(4).String() != "SC4, very severe" || Service(0).Means() != "" || Service(9).Means() != "" {
		t.Error("a service in words:", Service(4), Service(0).Means())
	}
}
