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

// LearntFile is the text of a file that a shop may include: a breakage per metal, and of each
// plater what was learnt of him, each with what it rests on.
func LearntFile(day string, from string, metals []LearntValue, platers []LearntPlater) string {
	text := fmt.Sprintf("# Learnt on %s from %s.\n# To use it, write at the top of the shop's file: include = "+
		"[\"learned.toml\"]\n", day, from)
	for _, m := range metals {
		text += fmt.Sprintf("\n[metal.%s]\n", keyText(m.Name)) + m.line("base")
	}
	for _, p := range platers {
		text += fmt.Sprintf("\n[plater.%s]\n", keyText(p.Factor.Name)) + p.Factor.line("breakage_factor")
		if p.Low.Rests != "" {
			text += p.Low.line("spread_low") + p.High.line("spread_high")
		}
	}
	return text
}

// LearntValue is one value of such a file.
type LearntValue struct {
	Name  string
	Value Micro
	Rests string // on one line
}

func (v *LearntValue) line(key string) string {
	return fmt.Sprintf("%s = %s   # %s\n", key, FormatMicro(v.Value), v.Rests)
}

// LearntPlater is what such a file says of a plater: how often he breaks what he has, and how
// far guesses of his work were off, which rests on nothing where there were too few.
type LearntPlater struct{ Factor, Low, High LearntValue }
