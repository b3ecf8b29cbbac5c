package catalog

import "math"

// StartingBases are the breakages of the metals in the built-in tables, whatever files
// say: what is learnt starts from there each time, so that nothing is counted twice.
func StartingBases() map[string]Micro {
	out := map[string]Micro{}
	for _, d := range startingLayers() {
		metals, _ := d.root["metal"].(map[string]any)
		for name, t := range metals {
			keys, _ := t.(map[string]any)
			if f, ok := asFloat(keys["base"]); ok {
				out[name] = Micro(math.Round(f * float64(One)))
			}
		}
	}
	return out
}
