package report

import (
	"fmt"
	"strings"

	"brightset/catalog"
	"brightset/model/paper"
	"brightset/model/plan"
)

// errand is an act in words: what is to be done with whom, the pieces, and the sum behind.
type errand struct {
	head, tail string
	items, ids []string // the pieces by their names, and as they are typed
}

func errandOf(st *catalog.State, a *paper.Act) errand {
	head, tail := actText(st, a)
	return errand{head, tail, piecesOf(st, a), idsOf(st, a)}
}

// actRows puts what is to be done now into numbered rows, of which there is room for so
// many: one each, with as many pieces as fit, and a second one for the pieces where there
// is room for that. What finds no room is counted; rest is what has it all.
func actRows(acts []errand, room int, rest string) []string {
	hidden := ""
	if len(acts) > room {
		hidden = fmt.Sprintf("    and %d more: %s", len(acts)-(room-1), rest)
		acts = acts[:room-1]
		room--
	}
	var rows []string
	for i := range acts {
		e := &acts[i]
		head := fmt.Sprintf("%3d %s", i+1, e.head)
		one, named := listed(head, e.tail, e.items)
		if named < len(e.items) && len(acts)-i < room {
			if two, more := listed("      "+e.items[0], "", e.items[1:]); more+1 > named {
				rows = append(rows, shorten(head+e.tail, Columns), two)
				room -= 2
				continue
			}
		}
		if named == 0 {
			one = e.row(fmt.Sprintf("%3d ", i+1))
		}
		rows = append(rows, one)
		room--
	}
	if hidden != "" {
		rows = append(rows, hidden)
	}
	return rows
}

// row is an act in one row, with as many of its pieces as fit.
func (e *errand) row(mark string) string {
	row, named := listed(mark+e.head, e.tail, e.items)
	if named == 0 && len(e.items) > 0 { // no name fits: what has to be typed is shorter
		row, _ = listed(mark+e.head, e.tail, e.ids)
	}
	return row
}

// listed is a row of what is to be done, to as many pieces as fit it, of which it says how
// many those are, and the sum behind.
func listed(head, tail string, items []string) (row string, named int) {
	text, sep := head, ": "
	goesOn := strings.HasPrefix(head, "      ") // a row that has a piece already
	if goesOn {
		sep = ", "
	}
	for i, item := range items {
		more := fmt.Sprintf(" and %d more", len(items)-i-1)
		if i == len(items)-1 {
			more = ""
		}
		if Width(text+sep+item+more+tail) > Columns {
			if i > 0 || goesOn {
				text += fmt.Sprintf(" and %d more", len(items)-i)
			}
			break
		}
		text += sep + item
		sep = ", "
		named++
	}
	return shorten(text+tail, Columns), named
}

// piecesOf names the pieces of an act, with the id to be typed; none of a trade, which
// names both of its own.
func piecesOf(st *catalog.State, a *paper.Act) []string {
	var all []string
	if a.Kind == paper.ActTrade {
		return nil
	}
	for k, i := range a.Pieces {
		if slot := a.For[k]; slot != catalog.None {
			all = append(all, clean(plan.OfSlot(st, slot, i)))
		} else {
			all = append(all, boxesOf(a.Boxes[i])+clean(plan.PieceCalled(st, i)))
		}
	}
	return all
}

// boxesOf begins the name of what is bought by the box.
func boxesOf(n int) string {
	switch n {
	case 0:
		return ""
	case 1:
		return "a box of "
	}
	return fmt.Sprintf("%d boxes of ", n)
}

// idsOf are the pieces of an act as they are typed.
func idsOf(st *catalog.State, a *paper.Act) []string {
	var all []string
	for _, i := range a.Pieces {
		all = append(all, st.PieceLabel(i))
	}
	return all
}

// actText says what is to be done and with whom, and what stands behind the pieces.
func actText(st *catalog.State, a *paper.Act) (head, tail string) {
	sum := ", " + catalog.FormatMoney(a.Cents)
	if a.Guess {
		sum = ", about " + catalog.FormatMoney(a.Cents)
	}
	pieces := count(a.Count, "piece")
	first := ""
	if a.Guess {
		first = "get prices, then "
	}
	switch a.Kind {
	case paper.ActStop:
		return "Have " + plater(st, a) + " stop work", ""
	case paper.ActApprove:
		return "Tell " + plater(st, a) + " to go ahead", sum
	case paper.ActPause:
		return "Ask " + plater(st, a) + " to wait with what is held in reserve", ""
	case paper.ActChase:
		return "Call " + plater(st, a) + ", overdue", ""
	case paper.ActRecall:
		return "Take back from " + plater(st, a), ""
	case paper.ActShelve:
		return "Keep bare metal from rusting", ""
	case paper.ActFetch:
		return "Fetch from " + plater(st, a), ""
	case paper.ActTryOn:
		return "Try on before plating", ""
	case paper.ActBuyFirst, paper.ActBuy:
		return seller(st, a), sum
	case paper.ActMake:
		return "Send to " + st.Makers[a.Maker].Name, sum
	case paper.ActBench:
		return "On our own bench", sum
	case paper.ActSend:
		return plater(st, a) + ": " + first + "send " + pieces, sum
	case paper.ActTrade:
		t := &st.Trades[a.Trade]
		return "Trade " + st.PieceLabel(t.Give) + " for " + st.PieceLabel(t.Get), ", credit " + catalog.FormatMoney(t.Credit)
	case paper.ActHold:
		return "Ask " + who(st, a) + " to hold in reserve", ""
	}
	return "Hang as it is", ""
}

func plater(st *catalog.State, a *paper.Act) string { return st.Platers[a.Plater].Name }

// who sells.
func who(st *catalog.State, a *paper.Act) string {
	if a.Vendor == catalog.None {
		return "the seller"
	}
	return st.Vendors[a.Vendor].Name
}

func seller(st *catalog.State, a *paper.Act) string {
	if a.Side == catalog.Shops {
		return "Take out of the drawers"
	}
	return "Buy from " + who(st, a)
}
