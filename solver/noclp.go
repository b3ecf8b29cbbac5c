//go:build !cgo

package solver

// Without C there is only our own engine.
var builtIn engine = simplexEngine{}
