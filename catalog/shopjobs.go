package catalog

import "fmt"

// ShopJobs gives the jobs that a shop's file lists, as seen from where the user is. What
// is wrong with it comes back as *Mistakes.
func ShopJobs(shop string) ([]string, error) {
	l := newLoader(Options{})
	d, _ := l.open(shop, ShopTable, nil)
	if d == nil {
		return nil, l.mistakes()
	}
	t := l.rootTable(d).peek("shop")
	if t == nil {
		l.mistake(d, span{line: 1, column: 1, width: 1}, "there is no [shop] table",
			`this has to be a shop's file: name it, with jobs = ["car/job.toml"] below [shop]`)
		return nil, l.mistakes()
	}
	names := t.texts("jobs")
	if len(names) == 0 {
		t.wrongHere("the shop lists no jobs", `write jobs = ["car/job.toml"], the files of its jobs`)
	}
	if len(l.list) > 0 {
		return nil, l.mistakes()
	}
	var out []string
	for _, n := range names {
		out = append(out, d.beside(n))
	}
	return out, nil
}

// LearntFile is the text of a file that a shop may include: a breakage per metal and a
// breakage factor per plater, each with what it rests on.
func LearntFile(day string, from string, metals []LearntValue, platers []LearntValue) string {
	text := fmt.Sprintf("# Learnt on %s from %s.\n# To use it, write at the top of the shop's file: include = "+
		"[\"learned.toml\"]\n", day, from)
	for _, m := range metals {
		text += fmt.Sprintf("\n[metal.%s]\nbase = %s   # %s\n", keyText(m.Name), FormatMicro(m.Value), m.Rests)
	}
	for _, p := range platers {
		text += fmt.Sprintf("\n[plater.%s]\nbreakage_factor = %s   # %s\n", keyText(p.Name), FormatMicro(p.Value), p.Rests)
	}
	return text
}

// LearntValue is one value of such a file.
type LearntValue struct {
	Name  string
	Value Micro
	Rests string // on one line
}
