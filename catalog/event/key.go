package event

// Key is a key of a table.
type Key string

// Of a piece; some of them of what is found on it, and of prices named for it, as well.
const (
	KeyFits     Key = "fits"
	KeyKind     Key = "kind"
	KeyMetal    Key = "metal"
	KeyOwner    Key = "owner"
	KeyName     Key = "name"
	KeyTag      Key = "tag"
	KeyPlace    Key = "place"
	KeyMarks    Key = "marks"
	KeyPhotos   Key = "photos"
	KeyPrice    Key = "price"
	KeyValue    Key = "value"
	KeyBundle   Key = "bundle"
	KeyBox      Key = "box" // how many are in one, where it is sold by the box alone
	KeyQuantity Key = "quantity"
	KeyChance   Key = "chance"
	KeyDays     Key = "days"
	KeyGrade    Key = "grade"
	KeyTone     Key = "tone"
	KeyFresh    Key = "fresh"
	KeyWeak     Key = "weak" // it was mended, and bears less than when it was new
	KeyFitted   Key = "fitted"
	KeyStage    Key = "stage"
	KeyHungIn   Key = "hung_in"
	KeyJob      Key = "job" // that a piece of the shop's is in use on
)

// Of what is found on a piece.
const (
	KeyDefect   Key = "defect"
	KeySeverity Key = "severity"
	KeyExtent   Key = "extent"
	KeyCount    Key = "count"
	KeyWhere    Key = "where"
	KeyHarmless Key = "harmless" // it keeps the piece from nothing
	KeyDone     Key = "done"     // works that mend it, and are done
)

// Of a choice, a price, and the terms on which a piece was sent.
const (
	KeyPiece    Key = "piece"
	KeySlot     Key = "slot"
	KeyWork     Key = "work"
	KeyPlater   Key = "plater"
	KeyLevel    Key = "level"
	KeyFallback Key = "fallback"
	KeyExpected Key = "expected"
	KeyReason   Key = "reason"
	KeyCost     Key = "cost"
	KeyLow      Key = "low"
	KeyHigh     Key = "high"
	KeyKnown    Key = "known" // the findings it was named for
	KeyFirm     Key = "firm"
	KeyBreakage Key = "breakage"
	KeyRefused  Key = "refused"
	KeyDate     Key = "date"
	KeyLot      Key = "lot"
	KeyOn       Key = "on"
	KeyQuoted   Key = "quoted" // the price is the plater's, not our own estimate
	KeyBefore   Key = "before" // works that others did before it went
	KeyAfter    Key = "after"  // works that others do when it is back
	KeyPaid     Key = "paid"
	KeyBase     Key = "base"
	KeyFactor   Key = "factor"
)

// Of a position, and of what is seen together.
const (
	KeyPart        Key = "part"
	KeyArea        Key = "area"
	KeyWeight      Key = "weight"
	KeyTarget      Key = "target"
	KeyFloor       Key = "floor"
	KeyMean        Key = "mean" // of the whole set
	KeySlots       Key = "slots"
	KeySamePlater  Key = "same_plater"
	KeyGradeWithin Key = "grade_within"
	KeyToneWithin  Key = "tone_within"
	KeyFreshAlike  Key = "fresh_alike"
)

// Of a plater.
const (
	KeyMinimum  Key = "minimum"
	KeyFreight  Key = "freight"
	KeyHourly   Key = "hourly"
	KeyLeast    Key = "least_per_piece"
	KeyStripFee Key = "strip_fee"
)

// Of a maker, a bundle, an avenue, and of what is asked of the whole job.
const (
	KeyWorks      Key = "works"
	KeyVendor     Key = "vendor"
	KeyLikely     Key = "likely"
	KeyBudget     Key = "budget"
	KeyWithinDays Key = "within_days"
	KeyCompletion Key = "completion"
)

// Of the ledger, and of a trade.
const (
	KeyFor    Key = "for"
	KeyMarkup Key = "markup" // that the owner is charged on it
	KeyOf     Key = "of"     // the plater or the bundle that jobs have in common
	KeyCredit Key = "credit"
	KeyGive   Key = "give"
	KeyGet    Key = "get"
)
