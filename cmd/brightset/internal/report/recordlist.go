package report

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"brightset/catalog"
	"brightset/catalog/event"
	"brightset/catalog/journal"
)

// EntryText is an entry in a few words.
func EntryText(e *journal.Entry) string {
	switch e.Action {
	case event.Keep:
		return "plan kept"
	case event.Imported:
		return "imported a table"
	case event.Terms:
		return "what is asked of the job"
	}
	text := string(e.Action)
	if names := unique(entryAbout(e)); len(names) > 0 {
		text += " " + strings.Join(names, ", ")
	}
	return text
}

// entryAbout names what an entry is about.
func entryAbout(e *journal.Entry) []string {
	kind := event.TablePiece
	switch e.Action {
	case event.Removed: // of whatever kind it is
		if len(e.Changes) == 0 {
			return nil
		}
		kind = event.Table(e.Changes[0].Target[0])
	case event.Lock, event.Unlock:
		kind = event.TableLock
	case event.Ban, event.Unban:
		kind = event.TableBan
	case event.Traded, event.Trade:
		kind = event.TableTrade
	case event.Vendor:
		kind = event.TableVendor
	case event.Maker:
		kind = event.TableMaker
	case event.Bundle:
		kind = event.TableBundle
	case event.Match:
		kind = event.TableMatch
	case event.Avenue:
		kind = event.TableAvenue
	case event.Spent:
		kind = event.TableSpent
	case event.Slot:
		kind = event.TableSlot
	case event.Plater:
		kind = event.TablePlater
	case event.Keep:
		return nil
	}
	var about []string
	for _, c := range e.Changes {
		if !c.Target.Is(kind) {
			continue
		}
		name := strings.TrimPrefix(c.Target.Name(), "shop:")
		if what, ok := c.New[event.KeyFor].(string); ok && kind == event.TableSpent {
			name = what
		}
		if piece, ok := c.New[event.KeyPiece].(string); ok && kind == event.TableBan {
			name = strings.TrimPrefix(strings.TrimPrefix(piece, "job:"), "shop:")
		}
		about = append(about, name)
	}
	return about
}

// Journal lists what was recorded and stands, the newest last.
func Journal(st *catalog.State) string {
	var b strings.Builder
	b.WriteString(Paragraph("", "", st.Job.Title+": what was recorded"))
	if st.Record == nil || len(st.Record.Entries) == 0 {
		return b.String() + "\n" + Paragraph("", "", "Nothing yet. To record something: brightset record ACTION TARGET; "+
			"the actions: brightset help record")
	}
	t := NewTable(">entry", "day", "what", "changed", ">spent")
	for i := range st.Record.Entries {
		e := &st.Record.Entries[i]
		what := EntryText(e)
		if e.Reason != "" {
			what += ": " + e.Reason
		}
		if st.Record.Ignored[e.Seq] {
			what += " (does not apply any more)"
		}
		spent := ""
		if sum := catalog.SpentBy(e); sum != 0 && !st.Record.Ignored[e.Seq] {
			spent = catalog.FormatMoney(sum)
		}
		t.Row(fmt.Sprint(e.Seq), e.Day().Format("2006-01-02"), what, changedText(e), spent)
	}
	b.WriteString("\n" + t.String() + ignoredWarning(st))
	b.WriteString("\n" + Paragraph("", "",
		fmt.Sprintf("Spent so far: %s. To take the last one back: brightset record undo",
			catalog.FormatMoney(st.Job.SpentSum))))
	return b.String()
}

// changedText names the most telling of the keys that an entry changes.
func changedText(e *journal.Entry) string {
	var all []string
	for _, c := range e.Changes {
		for _, k := range slices.Sorted(maps.Keys(c.New)) {
			v := c.New[k]
			switch k {
			case event.KeyStage, event.KeyGrade, event.KeyCost, event.KeyPrice, event.KeyChance, event.KeyHungIn,
				event.KeyDefect, event.KeySeverity, event.KeyQuantity:
				if v != nil && c.Target.Is(event.TablePiece) {
					all = append(all, fmt.Sprintf("%s %v", strings.ReplaceAll(string(k), "_", " "), v))
				}
			}
		}
	}
	return strings.Join(unique(all), ", ")
}
