package standard

// LeastChrome is how thin chromium may be on significant surfaces, in um, by whom one
// asks. The sources disagree, so that there is no one constant.
var LeastChrome = []struct {
	Um     float64
	Source string
}{
	{0.25, "ASTM B456-03"},
	{0.3, "Surface Finishing Guidebook 2011-12, table V: where a code leaves it out"},
	{ChromeJIS, "JIS H 8617, a reprint"},
}

// ChromeJIS is the chromium in um over nickel on steel (JIS H 8617 reprint).
const ChromeJIS = 0.1

// LeastChromeAt is the least chromium in um under ASTM B456-03: 0.25, and 0.13 allowed in
// mild service.
func LeastChromeAt(s Service) float64 {
	if s == 1 {
		return 0.13
	}
	return 0.25
}

// MostChromeOverParticles is the most chromium in um recommended over nickel that holds
// fine particles, which microporous chromium grows on (ASTM B456-03).
const MostChromeOverParticles = 0.5

// SemiBrightShare is the least share of a double nickel on steel that is semi-bright; the
// bright layer is under 40 % (Surface Finishing Guidebook, table IV).
const SemiBrightShare = 0.60
