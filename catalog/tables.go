package catalog

// Tables are the trade tables: the built-in starting values with the changes
// of included files and of the shop's laid over them, key by key.
type Tables struct {
	Metals  []Metal
	Defects []Defect
	Works   []Work
	Targets []Target
	Grades  []Word // ascending
	Tones   []Word

	Strength int // how many outcomes a starting value weighs against what is learnt
	Spread   Spread
}

// Spread is how far what is paid in the end may lie from a guess, as shares of it: a
// price after stripping rises far more often than it falls.
type Spread struct {
	Low  Val[Micro] // by so much below, 0..1
	High Val[Micro] // by so much above, 0..MaxSpread
}

// Word is a word people use at the bench for a grade or a tone.
type Word struct {
	Name  string
	Value Centi
	From  Origin
}

// Metal is what a piece is made of.
type Metal struct {
	Name string
	Base Val[Micro] // breakage of a piece in stripping and plating alone
	Bare string     // what becomes of it stripped, and what it needs; "" where nothing is known
	Note string
	From Origin
}

// Measure says which number of a finding the points of a defect are counted by.
type Measure string

const (
	ByExtent Measure = "extent" // points are for the whole surface
	ByCount  Measure = "count"  // points are for each
)

// Soundness says whether a defect keeps a piece from hanging, apart from how it looks.
type Soundness string

const (
	OfFinish    Soundness = "finish"    // how it looks alone: it may hang
	OfShape     Soundness = "shape"     // it doesn't lie on its seat
	OfFastening Soundness = "fastening" // it can't be fastened, or not for long
	OfStrength  Soundness = "strength"  // it gives way under a hand or a load
)

// FaultGroup is where a fault is looked for.
type FaultGroup string

const (
	OnSurface  FaultGroup = "surface"
	InShape    FaultGroup = "shape"
	NotAllHere FaultGroup = "missing" // missing, broken or weak
)

// Defect is a kind of fault.
type Defect struct {
	Name        string
	Describe    string
	Measure     Measure
	Usual       Micro      // extent where a finding gives none
	Where       Where      // where it sits where a finding doesn't say; default Face
	Progressive bool       // goes on growing
	Soundness   Soundness  // what else than finish it is a fault of; default OfFinish
	Group       FaultGroup // where it is looked for; default: by its soundness
	Tone        Val[Centi] // colour cast of a piece that shows it
	By          [3]DefectAt
	Refused     []Val[Micro] // per metal: chance that stripping reveals what sends it back, at Severe; see DefectAt.Reveal
	From        Origin
}

// DefectAt is a defect at one severity.
type DefectAt struct {
	Points   Val[Centi]
	Cap      Val[Centi] // highest grade with the fault left in, whatever its size; 100 where not set
	Polishes Val[bool]  // cleaning takes it away
	Works    []int      // trade works that mend it; see Mending
	WorksIn  []WorksIn  // metals in which others do, each metal once
	Beyond   Val[bool]  // beyond repair: can't be plated
	Harmless Val[bool]  // no fault of shape, fastening or strength that keeps a piece from hanging
	Reveal   Val[Micro] // share of Refused that applies at this severity, default One
}

// WorksIn are the works that mend a defect in one metal, in place of those in any other.
type WorksIn struct {
	Metal int
	Works []int
}

// Mending are the works that mend a fault in a metal (None where it is unknown): pits in pot
// metal are filled however light they are, those in steel only where they are deep.
func (t *Tables) Mending(f *Finding, metal int) []int {
	d := &t.Defects[f.Defect].By[f.Severity]
	for i := range d.WorksIn {
		if d.WorksIn[i].Metal == metal {
			return d.WorksIn[i].Works
		}
	}
	return d.Works
}

// Work is a trade work: something done to mend a fault, or cleaning.
type Work struct {
	Name     string
	Describe string
	HasHad   string       // what is said of a piece that has had it: "dents raised"; "" for the name
	Usual    bool         // platers who list no works take it
	Order    Val[int]     // when it is done, the lowest first; default PlatingOrder, the last before plating
	Hours    Val[Micro]   // once per piece
	Each     Val[Micro]   // per fault counted
	PerArea  Val[Micro]   // hours per dm2 of the surface concerned
	Breakage []Val[Micro] // per metal
	Cap      Val[Centi]   // highest grade afterwards
	Restores Val[bool]    // a piece bears what it bore when new; default it doesn't
	From     Origin
}

// PlatingOrder is when plating itself is done: after the works of this order and below.
const PlatingOrder = 50

// MaxOrder is the highest order of a work.
const MaxOrder = 1_000

// Told is what is said of a piece that has had the work.
func (w *Work) Told() string {
	if w.HasHad == "" {
		return w.Name
	}
	return w.HasHad
}

// AfterPlating says whether the work is done to the finished piece.
func (w *Work) AfterPlating() bool { return w.Order.Or(PlatingOrder) > PlatingOrder }

// CleanWork is the trade work that the choice "clean" is.
const CleanWork = "clean"
