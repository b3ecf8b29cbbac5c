package catalog

import (
	"slices"
	"testing"
)

// The built-in works are done in the order of the bench: strip, shape, build up, level,
// and after plating what is laid in.
func TestBuiltInOrderOfWorks(t *testing.T) {
	tables := BuiltIn()
	at := func(name string) int {
		i, ok := tables.WorkIndex(name)
		if !ok {
			t.Fatalf("no work %q", name)
		}
		return i
	}
	inTurn := []string{"derust", "straighten", "mend crack", "new post", "fill pits", "dress edge", "level surface",
		"recut lettering", "renew fill"}
	for i := 1; i < len(inTurn); i++ {
		if at(inTurn[i-1]) >= at(inTurn[i]) {
			t.Errorf("%s comes after %s", inTurn[i-1], inTurn[i])
		}
	}
	for i := range tables.Works {
		w := &tables.Works[i]
		if !w.Order.Set || i > 0 && w.Order.V < tables.Works[i-1].Order.V {
			t.Errorf("work %q has order %v after %v", w.Name, w.Order, tables.Works[max(0, i-1)].Order)
		}
		if w.AfterPlating() != (w.Name == "renew fill") {
			t.Errorf("work %q after plating: %v", w.Name, w.AfterPlating())
		}
	}
}

// A shop's order of works is laid over the built-in one, a new work takes its place, and
// what refers to works still refers to the same ones.
func TestOrderOfWorks(t *testing.T) {
	st := mustLoad(t, `[job]
title = "x"
shop = "shop.toml"
[work.weld]
order = 25
[work.seal]
[work.straighten]
order = 35
[work."renew fill"]
order = 15
[defect.bend.light]
works = ["straighten", "weld"]
`, "", Options{})
	at := func(name string) int { i, _ := st.Tables.WorkIndex(name); return i }
	inTurn := []string{"derust", "renew fill", "untwist", "weld", "mend crack", "straighten", "level surface", "seal"}
	for i := 1; i < len(inTurn); i++ {
		if at(inTurn[i-1]) >= at(inTurn[i]) {
			t.Errorf("%s comes after %s", inTurn[i-1], inTurn[i])
		}
	}
	bend, _ := st.Tables.DefectIndex("bend")
	want := []int{at("straighten"), at("weld")}
	if got := st.Tables.Defects[bend].By[Light].Works; !slices.Equal(got, want) {
		t.Errorf("a bend is mended by works %v, want %v", got, want)
	}
	if at("seal") != len(st.Tables.Works)-1 || st.Tables.Works[at("weld")].Name != "weld" {
		t.Error("a work lost its place")
	}
}
