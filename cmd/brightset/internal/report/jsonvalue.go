package report

import (
	"encoding/json"
	"math"

	"brightset/catalog"
)

func toJSON(doc any) (string, error) {
	text, err := json.MarshalIndent(doc, "", "  ")
	return string(text) + "\n", err
}

func hundredths(c catalog.Centi) float64 { return float64(c) / 100 }

func millionths(m catalog.Micro) float64 { return float64(m) / 1e6 }

// finite keeps what JSON can't say out of it.
func finite(x float64) float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return 0
	}
	return x
}
