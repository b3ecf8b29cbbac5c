package catalog

import (
	"math"
	"slices"
)

// BuiltIn gives the built-in trade tables alone, without any file of the
// user's. It panics if they are broken, which a test rules out.
func BuiltIn() Tables {
	l := newLoader(Options{})
	l.layers = slices.Clone(startingLayers())
	l.overlayTables()
	if len(l.list) > 0 {
		panic(l.mistakes().Error())
	}
	return l.state.Tables
}

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
