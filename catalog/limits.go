package catalog

// Limits of single values. They are far beyond any real job; together with the
// check of the job's sums (sums.go) they keep every total below MaxSum.
const (
	MaxMoney      Cents = 100_000_000_000 // 1 000 000 000.00
	MaxQuantity         = 10_000          // pieces of a slot or a bag, faults counted
	MaxDays             = 36_500          // a hundred years
	MaxHours      Micro = 10_000 * One    // of one work on one piece
	MaxArea       Micro = 10_000 * One    // dm2, that is 100 m2
	MaxWeight     Centi = 1_000_00        // of a slot
	MaxPoints     Centi = 1_000_00        // off for one fault
	MaxGrade      Centi = 100_00          // the finish of a perfect piece
	MaxTone       Centi = 100_00          // either way on the CIE b* axis
	MaxFactor     Micro = 100 * One       // breakage factor of a plater
	MaxSpread     Micro = 5 * One         // what a guess may come out dearer by, as a share of it
	maxFileSize         = 16 << 20        // bytes
	maxEntries          = 100_000         // keys, tables and list entries of a file
	maxPaths            = 32 << 20        // bytes of all their names, each with those above it
	maxAllSize          = 80 << 20        // bytes of all files of a job together, journals too
	maxAllEntries       = 400_000         // keys, tables and list entries of them all, without journals
	maxAllPaths         = 64 << 20        // bytes of all their names
	maxDepth            = 16              // nested values, parts of a dotted key
	maxLength           = 10_000          // characters of one text
	maxIDLength         = 100             // characters
	maxShown            = 200             // mistakes printed in one go
)

// mostOf is how many tables of a kind one file may have; mostOthers of all
// other kinds. Without such limits a small file could fill the memory.
var mostOf = map[string]int{"slot": 2_000, "piece": 20_000, "metal": 100, "level": 20, "spent": 20_000, "plan": 2_000,
	"share": 2_000, "lock": 2_000, "ban": 5_000}

const mostOthers = 500
