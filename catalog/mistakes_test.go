package catalog

import (
	"fmt"
	"reflect"
	"strings"
	"testing"
)

const (
	head  = "[job]\ntitle = \"x\"\nshop = \"shop.toml\"\n[slot.a]\n[slot.b]\n" // 5 lines
	piece = "[piece.p]\nfits = [\"a\"]\nkind = \"original\"\nmetal = \"steel\"\n"
	other = "[piece.q]\nfits = [\"a\"]\nkind = \"original\"\nmetal = \"steel\"\n"
	north = "[plater.north]\n[plater.north.level.show]\nrate = \"1.00\"\ngrade = { steel = 90 }\n"
)

// Every mistake is given as FILE:LINE:COLUMN+WIDTH: message | hint.
var mistakeTests = []struct {
	name, job, shop string
	want            []string
}{
	{"no title", "[job]\n", "", []string{`job.toml:1:2+3: [job] has no title | ` +
		`write title = "...", what is being restored`}},
	{"no job", "[slot.a]\n", "", []string{`job.toml:1:1+1: there is no [job] table | write [job] and below it title = ` +
		`"..."`}},
	{"unknown key", head + piece + "prise = \"3.00\"\n", "",
		[]string{`job.toml:10:1+5: unknown key "prise" in piece "p" | did you mean "price"?`}},
	{"unknown table", head + "[peice.x]\n", "", []string{`job.toml:6:2+5: unknown key "peice" in the top level | did ` +
		`you mean "piece"?`}},
	{"include too low", head + "include = [\"x.toml\"]\n", "",
		[]string{`job.toml:6:1+7: unknown key "include" in slot "b" | write include at the top of the file, before the ` +
			`first [table]`}},
	{"table of the other file", head + "[shop]\n", "[lock.a]\n", []string{
		`job.toml:6:2+4: [shop] has no place in this file | this belongs in the shop's file, which [job] names with shop = ` +
			`"shop.toml"`,
		`shop.toml:1:2+4: [lock] has no place in this file | this belongs in the job's file`}},
	{"all mistakes of both files in order", "[job]\ntitle = \"x\"\nshop = \"shop.toml\"\nbudget = 5\nlook = 1\n",
		"[shop]\nhourly = 4\n", []string{
			`job.toml:4:10+1: budget: money is written in quotes | write budget = "5.00"`,
			`job.toml:5:1+4: unknown key "look" in [job] | known here: budget, budget_on, completion, currency, keep, rescue, ` +
				`rescue_days, service, shop, start, target, title, within_days`,
			`shop.toml:2:10+1: hourly: money is written in quotes | write hourly = "4.00"`}},

	{"comma in money", head + "rescue = \"1,240\"\n", "",
		[]string{`job.toml:6:10+7: rescue: "1,240" has a comma, which some read as a decimal point | write "1240.00" or ` +
			`"1.24"`}},
	{"three decimals", head + "rescue = \"1.240\"\n", "",
		[]string{`job.toml:6:10+7: rescue: "1.240" doesn't have two decimals | write "1240.00" or "1.24"`}},
	{"negative money", head + "rescue = \"-5.00\"\n", "",
		[]string{`job.toml:6:10+7: rescue: "-5.00" is negative | write "5.00"`}},
	{"too much money", head + "rescue = \"1000000000.01\"\n", "",
		[]string{`job.toml:6:10+15: rescue: "1000000000.01" is more than 1000000000.00 | write a smaller amount`}},
	{"nan and inf", head + "weight = nan\nmax_breakage = inf\n", "", []string{
		`job.toml:6:10+3: weight: NaN is no number to calculate with | write a number from 0 to 1000`,
		`job.toml:7:16+3: max_breakage: +Inf is no number to calculate with | write a number from 0 to 1`}},
	{"percent", head + "max_breakage = 5\n", "", []string{`job.toml:6:16+1: max_breakage: 5 is not between 0 and 1 | ` +
		`write a number from 0 to 1; 5 % is 0.05`}},
	{"percent in quotes", head + "max_breakage = \"5 %\"\n", "",
		[]string{`job.toml:6:16+5: max_breakage: this has to be a number | write max_breakage = 0.05, without quotes`}},
	{"quantity", head + "quantity = 0\n", "", []string{`job.toml:6:12+1: quantity: 0 is not between 1 and 10000 | write ` +
		`a whole number from 1 to 10000`}},
	{"fraction", head + "quantity = 1.5\n", "", []string{`job.toml:6:12+3: quantity: this has to be a whole number | ` +
		`write quantity = 2`}},
	{"area without quotes", head + "area = 3.2\n", "",
		[]string{`job.toml:6:8+3: area: an area is written in quotes, with its unit | write area = "3.2 dm2" or "3.2 in2"`}},
	{"area without unit", head + "area = \"3.2\"\n", "",
		[]string{`job.toml:6:8+5: area: "3.2" has no unit | write "3.2 dm2" or "3.2 in2"`}},
	{"grade beyond", head + "floor = 101\n", "", []string{`job.toml:6:9+3: floor: 101 is not between 0 and 100 | write ` +
		`a number from 0 to 100`}},
	{"grade word", head + "floor = \"nise\"\n", "",
		[]string{`job.toml:6:9+6: floor: unknown grade "nise" | did you mean "nice"?`}},
	{"true in quotes", head + "fresh = \"true\"\n", "",
		[]string{`job.toml:6:9+6: fresh: this has to be true or false | ` +
			`write fresh = true or fresh = false, without quotes`}},
	{"date in quotes", "[job]\ntitle = \"x\"\nstart = \"2027-01-10\"\n", "",
		[]string{`job.toml:3:9+12: start: this has to be a date | write start = 2027-01-10, without quotes and time`}},
	{"completion of nothing", "[job]\ntitle = \"x\"\ncompletion = 0\n", "",
		[]string{`job.toml:3:14+1: completion: a chance of 0 asks nothing | write completion = 0.9, or leave the key out`}},
	{"budget on a quote", "[job]\ntitle = \"x\"\nbudget = \"1.00\"\nbudget_on = \"quote\"\n", "",
		[]string{`job.toml:4:13+7: budget_on: there is no quote to the owner | write [quote] with your markups, ` +
			`labour and tax, such as plating = 0.15, or budget_on = "outlay"`}},
	{"budget word", "[job]\ntitle = \"x\"\nbudget = \"1.00\"\nbudget_on = \"outlays\"\n", "",
		[]string{`job.toml:4:13+9: budget_on: unknown word "outlays" | did you mean "outlay"?`}},
	{"target", "[job]\ntitle = \"x\"\ntarget = \"shwo\"\n", "",
		[]string{`job.toml:3:10+6: target: unknown target "shwo" | did you mean "show"?`}},
	{"target at the top", "target = \"show\"\n[job]\ntitle = \"x\"\n", "",
		[]string{`job.toml:1:10+6: target: at the top level this has to be a table | write target = "show" below [job]`}},
	{"key of target", head + "[target]\nflor = 4\n", "",
		[]string{`job.toml:7:1+4: unknown key "flor" in [target] | did you mean "floor"?`}},
	{"list of tables", head + "[[piece]]\nfits = []\n", "",
		[]string{`job.toml:6:1+9: [[piece]]: lists of tables are not used here | write [piece.NAME], with a name of its ` +
			`own for each`}},
	{"shop names the job", "[job]\ntitle = \"x\"\nshop = \"job.toml\"\n", "",
		[]string{`job.toml:3:8+10: shop: "job.toml": this file is read already | each file is read once; name another or ` +
			`leave this out`}},
	{"shop is missing", "[job]\ntitle = \"x\"\nshop = \"shpo.toml\"\n", "",
		[]string{`job.toml:3:8+11: shop: "shpo.toml": no such file | check the name and the folder you are in`}},
	{"include loop", head, "include = [\"shop.toml\"]\n",
		[]string{`shop.toml:1:12+11: include: "shop.toml": this file is read already | each file is read once; name ` +
			`another or leave this out`}},

	{"piece lacks all", head + "[piece.p]\n", "", []string{
		`job.toml:6:8+1: piece "p" has no fits | write fits = ["..."], the slots or parts it is made for`,
		`job.toml:6:8+1: piece "p" has no kind | write kind = "original", "old-stock" or "reproduction"`,
		`job.toml:6:8+1: piece "p" has no metal | write metal = "steel" or another of the metal table, or "unknown"`}},
	{"words of a piece", head + "[piece.p]\nfits = [\"c\"]\nkind = \"orignal\"\nmetal = \"steal\"\nowner = \"shp\"\n", "",
		[]string{
			`job.toml:7:9+3: fits: no slot or part is called "c" | write one of "a", "b"; or write a table [slot.c]`,
			`job.toml:8:8+9: kind: unknown word "orignal" | did you mean "original"?`,
			`job.toml:9:9+7: metal: unknown metal "steal" | did you mean "steel"?`,
			`job.toml:10:9+5: owner: unknown owner "shp" | did you mean "shop"?`}},
	{"price of the customer's", head + piece + "price = \"1.00\"\n", "",
		[]string{`job.toml:10:1+5: a customer's piece has no price | write owner = "shop" or a vendor's id, or value = ... ` +
			`for what it would fetch`}},
	{"value of the shop's", head, piece + "value = \"1.00\"\n",
		[]string{`shop.toml:5:1+5: only a customer's piece has a value to be given up | write price = ..., or leave it out`}},
	{"price in a bundle", head + piece + "bundle = \"box\"\nprice = \"1.00\"\n", "[bundle.box]\nprice = \"9.00\"\n",
		[]string{`job.toml:11:1+5: a piece out of a bundle has no price of its own | leave price out; the bundle's price ` +
			`stands in [bundle.box]`}},
	{"another vendor's bundle", head + piece + "bundle = \"box\"\nowner = \"w\"\n",
		"[bundle.box]\nprice = \"9.00\"\nvendor = \"v\"\n[vendor.v]\n[vendor.w]\n",
		[]string{`job.toml:11:9+3: owner: the bundle "box" is not this vendor's | leave owner out, or write the bundle's ` +
			`vendor`}},
	{"a number for a word", head + piece + "[piece.p.finding.f]\ndefect = \"haze\"\nseverity = 3\n", "",
		[]string{`job.toml:12:12+1: severity: this has to be one of a few words | ` +
			`write one of "light", "moderate", "severe"`}},
	{"finding", head + piece + "[piece.p.finding.f]\ndefect = \"blister\"\nseverity = \"sever\"\nwhere = \"bak\"\n", "",
		[]string{
			`job.toml:11:10+9: defect: unknown defect "blister" | did you mean "blisters"?`,
			`job.toml:12:12+7: severity: unknown word "sever" | did you mean "severe"?`,
			`job.toml:13:9+5: where: unknown word "bak" | did you mean "back"?`}},
	{"fit", head + piece + "[piece.p.fit.c]\nhours = -1\n", "", []string{
		`job.toml:10:14+1: no slot or part is called "c" | write one of "a", "b"; or write a table [slot.c]`,
		`job.toml:11:9+2: hours: -1 is not between 0 and 10000 | write a number from 0 to 10000`}},
	{"quote", head + piece + "[piece.p.quote.q]\nplater = \"noth\"\nfirm = \"frm\"\nwork = \"replat\"\n", north, []string{
		`job.toml:10:16+1: quote "q" has no cost | write cost = "240.00"`,
		`job.toml:11:10+6: plater: unknown plater "noth" | did you mean "north"?`,
		`job.toml:12:8+5: firm: unknown word "frm" | did you mean "firm"?`,
		`job.toml:13:8+8: work: unknown word "replat" | did you mean "replate"?`}},
	{"low above high", head + piece + "[piece.p.quote.q]\nplater = \"north\"\ncost = \"3.00\"\nlow = \"4.00\"\nhigh = " +
		"\"2.00\"\n", north,
		[]string{`job.toml:13:7+6: low: the low 4.00 is above the high 2.00 | swap low and high`}},
	{"level", head + piece + "[piece.p.quote.q]\nplater = \"north\"\ncost = \"3.00\"\nlevel = \"shw\"\n", north,
		[]string{`job.toml:13:9+5: level: plater "north" has no level "shw" | did you mean "show"?`}},
	{"no grade follows", head + strings.Replace(piece, "steel", "unknown", 1) +
		"[piece.p.quote.q]\nplater = \"north\"\ncost = \"3.00\"\n", north,
		[]string{`job.toml:10:16+1: quote "q" gives no grade and none follows: the metal is unknown | write grade = 85 or ` +
			`a word such as "nice", what the piece will look like`}},
	{"no grade for the metal", head + strings.Replace(piece, "steel", "brass", 1) +
		"[piece.p.quote.q]\nplater = \"north\"\ncost = \"3.00\"\n", north,
		[]string{`job.toml:10:16+1: quote "q" gives no grade and none follows: level "show" says none for brass | write ` +
			`grade = 85 or a word such as "nice", what the piece will look like`}},

	{"match", head + "[match.m]\nslots = [\"a\", \"d\", \"a\"]\nsame_plater = true\n[match.n]\nslots = [\"a\"]\n" +
		"same_plater = true\n", "", []string{
		`job.toml:7:15+3: slots: unknown slot "d" | write one of "a", "b"`,
		`job.toml:7:20+3: slots: "a" stands here twice | leave one of the two out`,
		`job.toml:10:9+5: slots: a match group needs two slots or more | name another slot, or leave the group out`}},
	{"trade for itself", head + piece + "[trade.t]\ngive = \"p\"\nget = \"p\"\n", "",
		[]string{`job.toml:12:7+3: get: a piece can't be traded for itself | name another piece`}},
	{"trades in a circle", head + piece + other + "[trade.t]\ngive = \"p\"\nget = \"q\"\n[trade.u]\ngive = \"q\"\nget = " +
		"\"p\"\n", "",
		[]string{`job.toml:17:8+1: trade "u" goes round in a circle with trade "t" | leave one of the trades out`}},
	{"piece that fits nothing here", head + piece + "[trade.t]\ngive = \"p\"\nget = \"far\"\n",
		"[piece.far]\nfits = [\"z\"]\nkind = \"original\"\nmetal = \"steel\"\n",
		[]string{`job.toml:12:7+5: get: the shop's piece "far" fits no slot of this job | let a slot have its part, or ` +
			`leave this out`}},
	{"lock", head + piece + "[lock.c]\nwork = \"clean\"\nplater = \"north\"\n[lock.b]\npiece = \"p\"\n[lock.a]\n", north,
		[]string{
			`job.toml:10:7+1: unknown slot "c" | write one of "a", "b"`,
			`job.toml:12:1+6: work "clean" is done by no plater | leave plater out`,
			`job.toml:14:9+3: piece: piece "p" doesn't fit slot "b" | add the slot to the piece's fits, or name another piece`,
			`job.toml:15:7+1: lock "a" fixes nothing | write piece = "...", work = "...", plater = "..." or level = "..."`}},
	{"locked twice", head + piece + "[lock.a]\npiece = \"p\"\n[lock.x]\nslot = \"a\"\nwork = \"clean\"\n", "",
		[]string{`job.toml:12:7+1: slot "a" is locked already, by lock "a" | put both together`}},
	{"lock against ban", head + piece + "[lock.a]\npiece = \"p\"\nwork = \"replate\"\n[ban.n]\npiece = \"p\"\n", "",
		[]string{`job.toml:13:6+1: ban "n" forbids what the lock on line 10 demands | leave one of the two out`}},
	{"ban of everything", head + "[ban.n]\nreason = \"x\"\n", "",
		[]string{`job.toml:6:6+1: ban "n" would forbid everything | write piece = "...", work = "...", plater = "..." or ` +
			`level = "..."`}},

	{"same id in both files", head + "[vendor.v]\n", "[vendor.v]\n",
		[]string{`shop.toml:1:9+1: vendor "v" is written twice, first in job.toml:6 | give one of the two another name`}},
	{"vendor called shop", head, "[vendor.shop]\n",
		[]string{`shop.toml:1:9+4: a vendor can't be called "shop" | it means somebody else in owner = ...; write another ` +
			`name`}},
	{"off, and a vendor's", head + "[piece.p]\nfits = [\"b\"]\nkind = \"original\"\n" +
		"metal = \"brass\"\nowner = \"v\"\nprice = \"1.00\"\noff = true\n", "[vendor.v]\n",
		[]string{"job.toml:12:7+4: off: what came off the object is the customer's | leave off out; " +
			"of a piece that was his and was sold, write so in note"}},
	{"keep below nothing", head + "keep = \"-1.00\"\n", "",
		[]string{`job.toml:6:8+7: keep: "-1.00" is negative | write "1.00"`}},
	{"misfit", head, "[shop]\nmisfit = 1.5\n",
		[]string{`shop.toml:2:10+3: misfit: 1.5 is not between 0 and 1 | write a number from 0 to 1; 1.5 % is 0.015`}},
	{"works", head, "[shop]\nworks = [\"strighten\", 5]\n", []string{
		`shop.toml:2:10+11: works: unknown work "strighten" | did you mean "straighten"?`,
		`shop.toml:2:23+1: works: this has to be text | write "5"`}},
	{"metal in a rate", head, "[plater.n]\nlevel.show = { rate = { steal = \"1.00\" }, grade = 90 }\n",
		[]string{`shop.toml:2:25+5: unknown metal "steal" | did you mean "steel"?`}},
	{"factor twice", head, "[plater.n]\nfactor = 1\nbreakage_factor = 1\n",
		[]string{`shop.toml:2:1+6: factor and breakage_factor are the same | leave one of the two out`}},
	{"metal called unknown", head, "[metal.unknown]\n",
		[]string{`shop.toml:1:8+7: "unknown" can't be the name of a metal | it has a meaning of its own in these files; ` +
			`write another name`}},
	{"word without value", head, "[grade]\nfine = \"x\"\n[tone.blue]\n", []string{
		`shop.toml:2:8+3: fine: this has to be a number | write a number from 0 to 100, without quotes`,
		`shop.toml:3:7+4: tone "blue" has no value | ` +
			`write value = 2.5, its place between blue (below 0) and yellow (above)`}},
	{"sums", "[job]\ntitle = \"x\"\n[slot.a]\nquantity = 10000\n[slot.b]\nquantity = 9999\n[piece.p]\nfits = [\"a\", " +
		"\"b\"]\nquantity = 10000\nkind = \"original\"\nmetal = \"steel\"\nvalue = \"1000000000.00\"\n", "",
		[]string{`job.toml:3:7+1: costs may add up to more than the program can calculate with, most of all in slot "a" | ` +
			`check the slot's quantity and area, and the prices, rates and hours in the files`}},

	{"bad ids", head + "[slot.\" d\"]\n[slot.\"\"]\n[slot.\"job:x\"]\n[slot.\"a\\tb\"]\n", "", []string{
		`job.toml:6:7+4: the name of this slot begins or ends with a space | write another name`,
		`job.toml:7:7+2: the name of this slot is empty | write another name`,
		`job.toml:8:7+7: the name of this slot begins with "job:" or "shop:", which the program puts there itself | write ` +
			`another name`,
		`job.toml:9:7+6: the name of this slot contains U+0009, a tab | delete it: write "ab"`}},
}

func TestMistakes(t *testing.T) {
	for _, c := range mistakeTests {
		t.Run(c.name, func(t *testing.T) {
			checkMistakes(t, mistakesIn(t, map[string]string{"job.toml": c.job, "shop.toml": c.shop}), c.want)
		})
	}
}

func checkMistakes(t *testing.T, got []Mistake, want []string) {
	t.Helper()
	var lines []string
	for _, m := range got {
		lines = append(lines, fmt.Sprintf("%s:%d:%d+%d: %s | %s", m.File, m.Line, m.Column, m.Width, m.Message, m.Hint))
	}
	if !reflect.DeepEqual(lines, want) {
		t.Errorf("got\n  %s\nwant\n  %s", strings.Join(lines, "\n  "), strings.Join(want, "\n  "))
	}
}
