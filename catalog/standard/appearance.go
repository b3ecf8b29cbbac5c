package standard

// Words for a form: how a finish is looked at and told. Each names its source.
const (
	// Significant is where thickness is promised (BS EN ISO 27830:2013; IS 12393:1988 clause
	// 1.2).
	Significant = "thickness counts on the significant surface only, and there where a ball of 20 mm can touch (ISO 27830)"

	// Viewing is how a finish is looked at (ASTM B532-85 clauses 4 and 6).
	Viewing = "looked at in the position of use from 600 to 900 mm, in diffuse light of 1500 to 1600 lm/m2 (ASTM B532)"

	// Surfaces are the surfaces of a piece by how they are seen (ASTM B532-85).
	Surfaces = "surfaces: A most prominent, B beside it, C seen at an angle, D hidden (ASTM B532); agree which is which"

	// Rated is how defects are told; the areas are those of limits (ISO 10289), the last
	// sentence ASTM B537-70.
	Rated = "defects are told by rating, as a share of the surface: 10 for none, 9 up to 0.1 %, 8 up to 0.25 %, 7 up to " +
		"0.5 %, 6 up to 1 %, 5 up to 2.5 % (ISO 10289), 4 up to 5 %, 3 up to 10 %, 2 up to 25 %, 1 up to 50 % (from " +
		"memory); appearance is never rated above protection (ASTM B537)"
)
