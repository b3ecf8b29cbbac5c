package catalog

import (
	"fmt"
	"reflect"
	"strings"
	"testing"
)

// inCapitals are the words of the trade in a job and a shop, each of them passed through how.
func inCapitals(tables *Tables, how func(string) string) (job, shop string) {
	var b strings.Builder
	say := func(format string, words ...string) {
		args := make([]any, len(words))
		for i, w := range words {
			args[i] = how(w)
		}
		fmt.Fprintf(&b, format+"\n", args...)
	}
	b.WriteString("[job]\ntitle = \"x\"\nshop = \"shop.toml\"\nbudget = \"900.00\"\n")
	say("budget_on = %q", "outlay")
	for i := range tables.Targets {
		say(fmt.Sprintf("[slot.s%d]\ntarget = %%q", i), tables.Targets[i].Name)
	}
	n := 0
	piece := func(kind, metal, owner string) {
		say(fmt.Sprintf("[piece.p%d]\nfits = [\"s0\"]\nkind = %%q\nmetal = %%q\nowner = %%q", n), kind, metal, owner)
		n++
	}
	for i := range tables.Metals {
		piece([]string{"original", "old-stock", "reproduction"}[i%3], tables.Metals[i].Name,
			[]string{"customer", "shop"}[i%2])
	}
	piece("original", "unknown", "customer")
	piece("original", "brass", "customer")
	for i := range tables.Grades {
		piece("original", "brass", "customer")
		say("grade = %q\ntone = %q", tables.Grades[i].Name, tables.Tones[i%len(tables.Tones)].Name)
	}
	for i := range tables.Defects {
		piece("original", "brass", "customer")
		say(fmt.Sprintf("[piece.p%d.finding.f]\ndefect = %%q\nseverity = %%q\nwhere = %%q", n-1), tables.Defects[i].Name,
			[]string{"light", "moderate", "severe"}[i%3], []string{"face", "edge", "back"}[i%3])
	}
	for i, firm := range []string{"estimate", "after strip", "firm"} {
		piece("original", "brass", "customer")
		say(fmt.Sprintf("[piece.p%d.quote.q]\nplater = \"n\"\ncost = \"40.00\"\nwork = %%q\nlevel = %%q\nfirm = %%q", n-1),
			[]string{"replate", "repair-replate"}[i%2], "show", firm)
	}
	say("[lock.s1]\nwork = %q", "as-is")
	job, works := b.String(), []string{}
	for i := range tables.Works {
		works = append(works, fmt.Sprintf("%q", how(tables.Works[i].Name)))
	}
	b.Reset()
	fmt.Fprintf(&b, "[shop]\nworks = [%s]\n", strings.Join(works, ", "))
	say("[defect.%q.light]\nworks_in = { %q = [%q] }", "twist", "pot metal", "untwist")
	say("[plater.n.level.show]\nrate = { %q = \"40.00\", %q = \"30.00\" }\ngrade = { %q = 90, %q = %q }",
		"pot metal", "other", "steel", "other", "nice")
	return job, b.String()
}

// TestCapitals: every word of the trade is read with any capitals, and means the same.
func TestCapitals(t *testing.T) {
	tables := mustLoad(t, "[job]\ntitle = \"x\"\n", "", Options{}).Tables
	bare := func(st *State) any {
		return []any{st.Tables, st.Slots, st.Pieces, st.Platers, st.Shop.Works, st.Locks}
	}
	job, shop := inCapitals(&tables, func(s string) string { return s })
	want := bare(mustLoad(t, job, shop, Options{}))
	for name, how := range map[string]func(string) string{"capitals": strings.ToUpper, "first": func(s string) string {
		return strings.ToUpper(s[:1]) + s[1:]
	}} {
		job, shop := inCapitals(&tables, how)
		if got := bare(mustLoad(t, job, shop, Options{})); !reflect.DeepEqual(got, want) {
			t.Errorf("%s: it is another job", name)
		}
	}
}

// TestCapitalsOfLevels: a list of prices may call a plater's level with other capitals than he
// does, and so may a quote.
func TestCapitalsOfLevels(t *testing.T) {
	inFolder(t, map[string]string{
		"job.toml": "include = [\"list.toml\"]\n" + head + piece +
			"[piece.p.quote.q]\nplater = \"north\"\ncost = \"9.00\"\nlevel = \"SHOW\"\n",
		"shop.toml": north, "list.toml": "[plater.north.level.Show.price.a]\nSteel = \"41.50\"\n"})
	st, err := Load("job.toml", Options{})
	if err != nil {
		t.Fatal(err)
	}
	level := &st.Platers[0].Levels[0]
	if price := level.PriceOf(&st.Pieces[0], &st.Slots[0]); price.V != 41_50 {
		t.Errorf("the price of the list is %d, want 4150", price.V)
	}
	if got := st.Pieces[0].Quotes[0].Level; got != level.Name {
		t.Errorf("the quote is for level %q, want %q", got, level.Name)
	}
}
