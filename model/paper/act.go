package paper

import (
	"brightset/catalog"
)

// ActKind says what is to be done. Their order is one that works: first whoever waits for
// an answer, then what has to be known before anything is committed, then what has to be
// here before it can be worked on, then the works in their order.
type ActKind int

const (
	ActStop     ActKind = iota // he has named his price: have him stop, the plan does without the piece
	ActApprove                 // he has named his price: the plan goes on with it
	ActPause                   // he has named his price: he is to wait, the piece is held in reserve
	ActChase                   // he has had the pieces for longer than he said
	ActRecall                  // nothing is done to it yet, and the plan does without it
	ActFetch                   // it is plated
	ActShelve                  // it is bare metal, and here: it has to be kept from rusting
	ActTryOn                   // to be held against the object before money is spent on it
	ActBuyFirst                // bought, or taken out of the drawer, since it has to be worked on
	ActMake                    // a maker's works before plating
	ActBench                   // the shop's own works
	ActSend                    // a lot; where Guess, firm prices are asked for first
	ActBuy                     // what hangs as it is
	ActTrade                   // a piece given for one
	ActHold                    // fallbacks that are somebody else's: he is asked to keep them
	ActHang                    // it hangs as it is
)

// Act is one thing that a plan asks for, of one person or place. What doesn't apply is
// catalog.None.
type Act struct {
	Kind   ActKind
	Plater int
	Maker  int
	Side   catalog.Side // whose the pieces are; ActBuyFirst and ActBuy
	Vendor int
	Trade  int
	Pieces []int         // in the plan's order, each once
	For    []int         // per piece the slot that it is for, the first of several
	Slots  []int         // the slots they are for
	Count  int           // pieces of bags counted
	Boxes  map[int]int   // of pieces that are bought by the box: how many boxes
	Cents  catalog.Cents // what it costs as planned; below zero for a credit
	Guess  bool          // the sum is nobody's quote yet
}

// nobodys is an act before it is known with whom.
func nobodys(kind ActKind) Act {
	return Act{Kind: kind, Plater: catalog.None, Maker: catalog.None, Vendor: catalog.None, Trade: catalog.None}
}

// boxes says how many boxes of a piece are bought, if it is sold by the box.
func (a *Act) boxes(st *catalog.State, piece, n int) {
	if st.Bundles[st.Pieces[piece].Bundle].Box == 0 {
		return
	}
	if a.Boxes == nil {
		a.Boxes = map[int]int{}
	}
	a.Boxes[piece] = n
}
