package catalog

import (
	"fmt"
	"slices"
	"strings"
)

// belongs says, for each kind of table, which keys people write there that have
// their place in another one. In the texts %s is the table's own name.
var belongs = map[string][]placeOf{
	"job": {{"[target]", "floor mean fresh redone lasting fallback_floor"},
		{"[slot.NAME]", "area weight part quantity max_breakage bears"}, {"[piece.NAME]", "off tried weak"},
		{"[shop] of the shop's file", "hourly works spread_low spread_high call_above misfit address phone contact"},
		{"[plater.NAME]", "tone_drift"}, {"[quote]", ofQuote}},
	"slot": {{"[job]", "budget budget_on completion within_days start"}, {"[target]", "mean"},
		{"[match.NAME]", "grade_within tone_within same_plater fresh_alike"},
		{"[piece.NAME]", "kind metal grade price off tried weak"}, {"[plater.NAME]", "tone_drift"},
		{"[shop] of the shop's file", "misfit"},
		{"[piece.NAME.finding.NAME]", "harmless"}},
	"piece": {{"[%s.finding.NAME]", "defect severity extent count where harmless done"},
		{"[%s.quote.NAME]", "plater level cost firm refused low high date work"}, {"[%s.fit.SLOT]", "hours cap"},
		{"[slot.NAME]", "area weight part bears keep"}, {"[plater.NAME]", "tone_drift"},
		{"[shop] of the shop's file", "misfit"}},
	"match": {{"[plater.NAME]", "tone_drift"}},
	"quote": {{"[job]", "budget budget_on"}, {"[job] or [slot.NAME]", "keep"}},
	"shop": {{"[plater.NAME]", "minimum least_per_piece strip_fee refuses factor breakage_factor tone_drift"},
		{"[vendor.NAME] or [plater.NAME]", "freight"}, {"[quote]", ofQuote},
		{"[job] or [slot.NAME] of the job's file", "keep"}},
	"plater": {{"[%s.level.NAME]", "rate grade tone"}, {"[shop] of the shop's file", "misfit call_above"}},
	"vendor": {{"[bundle.NAME] or [piece.NAME]", "price"}, {"[shop] of the shop's file", "misfit"}},
	"bundle": {{"[vendor.NAME]", "freight"}},
	"defect": {{"[%s.light], [%s.moderate] or [%s.severe]", "points cap polishes works beyond harmless reveal"},
		{"[work.NAME]", "restores_strength order"}},
}

// ofQuote are the keys of [quote] that are in no other table.
const ofQuote = "paid mark_up_broken plating parts tax deposit after_strip removal tagging packing fitting valid_days"

type placeOf struct{ table, keys string }

// placeHint is the hint for an unknown key that has its place in another table,
// "" where there is none: the place is certain, a similar word is only a guess.
func (t *table) placeHint(key string) string {
	if key == "include" && t.path != "" {
		return "write include at the top of the file, before the first [table]"
	}
	path := strings.Split(t.path, "\x00")
	if len(path) > 2 {
		return ""
	}
	for _, p := range belongs[path[0]] {
		for _, k := range strings.Fields(p.keys) {
			if k == key {
				return fmt.Sprintf("write it below %s", strings.ReplaceAll(p.table, "%s", dotted(path)))
			}
		}
	}
	return ""
}

// pointInName is the hint for [piece.arm.2], where the point was meant to be
// part of the name; "" where it can't have been, as in the trade tables.
func (t *table) pointInName(key string) string {
	path := strings.Split(t.path, "\x00")
	if _, isTable := t.m[key].(map[string]any); !isTable || len(path) != 2 ||
		slices.Contains([]string{"defect", "metal", "work"}, path[0]) {
		return ""
	}
	return fmt.Sprintf("if the point belongs to the name, write [%s]",
		dotted([]string{path[0], path[1] + "." + clip(key)}))
}
