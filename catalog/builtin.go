package catalog

import "slices"

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
