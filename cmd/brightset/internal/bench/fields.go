package bench

import (
	"fmt"
	"maps"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"brightset/catalog"
	"brightset/catalog/event"
	"brightset/cmd/brightset/internal/record"
)

// newName is an id for something new that none has yet: of a piece by its number, of a position
// or a plater by the name that was typed; "" for what is never new.
func newName(st *catalog.State, action event.Action, name string) string {
	taken := map[string]bool{}
	switch action {
	case event.New:
		for n := len(st.Pieces) + 1; ; n++ {
			id := fmt.Sprintf("piece-%d", n)
			if _, known := st.FindPiece(id); !known {
				return id
			}
		}
	case event.Terms:
		return string(event.TableJob)
	case event.Slot:
		take(taken, st.Slots, func(v *catalog.Slot) string { return v.ID })
	case event.Plater:
		take(taken, st.Platers, func(v *catalog.Plater) string { return v.ID })
	case event.Vendor:
		take(taken, st.Vendors, func(v *catalog.Vendor) string { return v.ID })
		taken["customer"], taken["shop"] = true, true
	case event.Maker:
		take(taken, st.Makers, func(v *catalog.Maker) string { return v.ID })
	case event.Bundle:
		take(taken, st.Bundles, func(v *catalog.Bundle) string { return v.ID })
	case event.Match:
		take(taken, st.Matches, func(v *catalog.Match) string { return v.ID })
	case event.Avenue:
		take(taken, st.Avenues, func(v *catalog.Avenue) string { return v.ID })
	case event.Trade:
		take(taken, st.Trades, func(v *catalog.Trade) string { return v.ID })
	default:
		return ""
	}
	if name == "" {
		name = string(action)
	}
	return freeID(name, taken)
}

func take[T any](taken map[string]bool, all []T, id func(*T) string) {
	for i := range all {
		taken[id(&all[i])] = true
	}
}

// facts reads the fields of a form, named as the flags of record. One button may name several: a
// way is a plater, his level and the work. Of several pieces, each has fields of its own, with its key
// after the name: "grade of job:rl-1".
func facts(v url.Values) record.Facts {
	f := factsOf(func(key string) string { return strings.TrimSpace(v.Get(key)) })
	f.Fits, f.Slots, f.Works = strings.Join(v["fits"], ","), strings.Join(v["slots"], ","), strings.Join(v["works"], ",")
	pieces := v["pieces"]
	if len(pieces) == 0 {
		return f
	}
	f.Target = strings.Join(pieces, ",")
	for _, key := range pieces {
		one := factsOf(func(name string) string { return strings.TrimSpace(v.Get(name + " of " + key)) })
		one.Target = key
		f.Each = append(f.Each, one)
	}
	return f
}

func factsOf(get func(string) string) record.Facts {
	f := record.Facts{
		Target: get("target"), Kind: get("kind"), Metal: get("metal"), Owner: get("owner"), Name: get("name"),
		Tag: get("tag"), Place: get("place"), Marks: get("marks"), Quantity: get("quantity"), Value: get("value"),
		Chance: get("chance"), Defect: get("defect"), Severity: get("severity"), Extent: get("extent"),
		Count: get("count"), Where: get("where"), Grade: get("grade"), Tone: get("tone"), Days: get("days"),
		Breakage: get("breakage"), Cost: get("cost"), Credit: get("credit"), Freight: get("freight"),
		To: get("to"), Work: get("work"), Level: get("level"), Firm: get("firm"), Slot: get("slot"), Piece: get("piece"),
		StripFirst: get("strip-first") != "", NewLot: get("new-lot") != "", Harmless: get("harmless") != "",
		On: get("on"), Reason: get("reason"), From: get("from"), Price: get("price"), Anyway: get("anyway") != "",
		Part: get("part"), Area: get("area"), Weight: get("weight"), Goal: get("goal"), With: get("with"),
		Minimum: get("minimum"), Hourly: get("hourly"), Least: get("least"), StripFee: get("strip-fee"),
		Rate: get("rate"), Low: get("low"), High: get("high"), Give: get("give"), Get: get("get"),
		GradeWithin: get("grade-within"), ToneWithin: get("tone-within"), Budget: get("budget"),
		Completion: get("completion"), What: get("what"), SamePlater: get("same-plater") != "",
		FreshAlike: get("fresh-alike") != "", Bundle: get("bundle"), Floor: get("floor"), Mean: get("mean"),
	}
	if words := get("words"); words != "" { // over one of the reasons at hand
		f.Reason = words
	}
	if way := strings.Split(get("way"), "|"); len(way) == 3 {
		f.To, f.Level, f.Work = way[0], way[1], way[2]
	}
	return f
}

// fixed are the fields that nobody types.
var fixed = []string{"action", "target", "base", "back", "token", "which", "piece", "slot", "pieces"}

// field is a field of a form, as it was filled in.
type field struct{ Name, Value string }

// filledIn are the fields of a refused form that were filled in, to be put right and sent again.
func filledIn(r *http.Request) []field {
	return fields(r, func(name string) bool { return !slices.Contains(fixed, name) && !strings.Contains(name, " of ") })
}

// hidden are the others.
func hidden(r *http.Request) []field {
	return fields(r, func(name string) bool { return slices.Contains(fixed, name) || strings.Contains(name, " of ") })
}

func fields(r *http.Request, wanted func(string) bool) (all []field) {
	for _, name := range slices.Sorted(maps.Keys(r.PostForm)) {
		for _, v := range r.PostForm[name] {
			if wanted(name) {
				all = append(all, field{name, v})
			}
		}
	}
	return all
}
