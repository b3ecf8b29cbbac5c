//go:build !cgo

package solver

// EngineName says by what linear programs are solved.
const EngineName = "its own simplex"

// Without C there is only our own engine.
var builtIn engine = simplexEngine{}
