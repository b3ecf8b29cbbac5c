package catalog

import "testing"

// A syntax error stops one file only.
func TestSyntax(t *testing.T) {
	for _, c := range []struct {
		name, job, shop string
		want            []string
	}{
		{"word without quotes", "[job]\ntitle = jukebox\n", "", []string{
			`job.toml:2:9+7: expected value but found "jukebox" instead | words are written in quotes, such as kind = ` +
				`"original"; numbers, true, false and dates are not`}},
		{"quote left open", "[job]\ntitle = \"x\n", "", []string{
			`job.toml:2:11+1: strings cannot contain newlines | ` +
				`put the closing quote at the end of the text, on the same line`}},
		{"curly quotes", "[job]\ntitle = “x”\n", "",
			[]string{`job.toml:2:9+1: expected value but found '“' instead | write straight quotes: "..."`}},
		{"name with a space", "[metal.pot metal]\n", "", []string{
			`job.toml:1:12+1: expected '.' or ']' to end table name, but got 'm' instead | names with spaces are written in ` +
				`quotes, such as [metal."pot metal"]`}},
		{"two tables of one name", head + piece + "\n" + piece, "", []string{
			`job.toml:11:8+1: [piece.p] is written twice, first on line 6 | give one of the two another name, or put both ` +
				`together`}},
		{"all that is written twice", head + "[slot.a]\npart = \"x\"\npart = \"y\"\n", "", []string{
			`job.toml:6:7+1: [slot.a] is written twice, first on line 4 | ` +
				`give one of the two another name, or put both together`,
			`job.toml:8:1+4: slot.a.part is written twice, first on line 7 | leave one of the two out`}},
		{"job broken, shop read", "[job]\nshop = \"shop.toml\"\ntitle = \n[slot.a]\n",
			"[shop]\nhourly = 5\n[piece.p]\nfits = [\"a\"]\nkind = \"orig\"\nmetal = \"steel\"\n", []string{
				`job.toml:3:9+1: expected value but found the end of the line instead | write the value after the =, or take the ` +
					`line out`,
				`shop.toml:2:10+1: hourly: money is written in quotes | write hourly = "5.00"`,
				`shop.toml:5:8+6: kind: unknown word "orig" | did you mean "original"?`}},
		{"shop broken, job read", head + "[piece.p]\nfits = [\"c\"]\nkind = \"orig\"\nmetal = \"new alloy\"\nowner = " +
			"\"vera\"\n", "[shop\n", []string{
			`job.toml:7:9+3: fits: no slot or part is called "c" | write one of "a", "b"; or write a table [slot.c]`,
			`job.toml:8:8+6: kind: unknown word "orig" | did you mean "original"?`,
			`shop.toml:1:6+1: expected '.' or ']' to end table name, but got the end of the line instead | put a ] after the ` +
				`name`}},
		{"nested too deeply", "x = [[[[[[[[[[[[[[[[[[[[1]]]]]]]]]]]]]]]]]]]]\n", "", []string{
			`job.toml:1:22+1: this is nested too deeply | nothing in these files is nested more than 16 deep`}},
	} {
		t.Run(c.name, func(t *testing.T) {
			checkMistakes(t, mistakesIn(t, map[string]string{"job.toml": c.job, "shop.toml": c.shop}), c.want)
		})
	}
}
