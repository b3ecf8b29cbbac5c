package solver

// without is what a search can do without: parts of it that change no answer, only
// how fast it is found. Nothing is left out unless a test asks for it, to see that the
// answers with and without agree.
type without struct {
	dominance bool // columns that another makes needless stay
	blocks    bool // every group is a block of its own
	classes   bool // every column of a block is a class of its own
	parts     bool // a problem is not taken apart
	cuts      bool // no bound cuts anything off
	fixing    bool // no bound rules out columns or settles switches
	knapsack  bool // no row is kept whole
	walks     bool // no node is enumerated before one pick is left of it
	rowLinks  bool // switches are linked with groups alone
	guesses   bool // no total is guessed
	layers    bool // no node is gone through block by block
	implied   bool // no implied rows are made
	cursory   bool // the search is thorough after a few nodes
	order     bool // groups that are alike may have their columns in any order

	engine engine // another one than the program has; nil: that one
}

// solves is the engine that linear programs are solved by.
func (w *without) solves() engine {
	if w.engine != nil {
		return w.engine
	}
	return builtIn
}
