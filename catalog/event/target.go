package event

// Table is a kind of table that entries change.
type Table string

// The tables by name, as in [piece.rl-1], and those below one of a piece, as in
// [piece.rl-1.finding.pits].
const (
	TablePiece   Table = "piece"
	TableFinding Table = "finding" // below a piece, by name
	TableQuote   Table = "quote"   // below a piece, by name
	TableSent    Table = "sent"    // below a piece; there is one
	TablePlan    Table = "plan"    // by slot: a line of the plan that is kept
	TableShare   Table = "share"   // by number: what the job pays of what the plan has in common with others
	TableLock    Table = "lock"
	TableBan     Table = "ban"
	TableTrade   Table = "trade"
	TableSpent   Table = "spent"
	TableSlot    Table = "slot"
	TableMatch   Table = "match"
	TablePlater  Table = "plater"
	TableVendor  Table = "vendor"
	TableMaker   Table = "maker"
	TableBundle  Table = "bundle"
	TableAvenue  Table = "avenue"
	TableJob     Table = "job"    // there is one, without a name
	TableTarget  Table = "target" // over the one that the job names
	TableLevel   Table = "level"  // below a plater, by name
	TableRate    Table = "rate"   // below a level, a key per metal, as is
	TableGrade   Table = "grade"  // below a level
)

// Target is the path of a table: piece, rl-1, finding, pits.
type Target []string

// Of is the path of a table by its name, or without one of all tables of a kind.
func Of(t Table, name ...string) Target { return append(Target{string(t)}, name...) }

// Below is the path of a table within another.
func (t Target) Below(part Table, name ...string) Target {
	return append(append(t[:len(t):len(t)], string(part)), name...)
}

// Is says whether the path leads to a table of that kind, or to one below it.
func (t Target) Is(kind Table) bool { return len(t) > 1 && t[0] == string(kind) }

// Name is the name of the table: of the piece, where one below it is meant.
func (t Target) Name() string {
	if len(t) < 2 {
		return ""
	}
	return t[1]
}

// Part is the kind of table below the one of that name; "" where that is meant itself.
func (t Target) Part() Table {
	if len(t) < 3 {
		return ""
	}
	return Table(t[2])
}
