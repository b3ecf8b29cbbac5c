package plan

// One spare held for two slots. Slots s and t hang k_s and k_t, which fail with P_s
// and P_t, each by itself, and fall back on one piece, as f_s or as f_t. If only one
// fails it takes the spare. If both fail the one that has the first call takes it, and
// the other, which yields, is rescued:
//
//	E(has the first call) = paid + P fallback(f), as if the spare were its own
//	E(yields)             = paid + P fallback(f) + (P_s P_t)(R - fallback(f))
//
// The last term is rounded as everywhere, half up: (P m + 500000) div 1000000, where
// div goes down, so that it is right for a negative m too. A rescue that is cheaper
// than the spare makes it negative.
//
// Which of them yields is decided beforehand: the one that makes the pair cheaper; of
// equals the later slot. By the date it may yield if a rescue would be in time for it:
// days(k) + rescue_days <= within_days.
//
// The chance that one of the two needs a rescue:
//
//	P_s (1-P_t) p_fs + (1-P_s) P_t p_ft + P_s P_t
//
// and what the pair takes up of the completion row is round(-1e6 ln(1 - that)).

// Sharing says that the fallback of a line is held for another slot too.
type Sharing struct {
	With   int  // the other slot, whose line says the same of this one
	Yields bool // if both fail the spare goes to the other slot, and this one is rescued
}
