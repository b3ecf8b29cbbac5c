package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"brightset/catalog"
	"brightset/catalog/disk"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/risk"

	"github.com/spf13/pflag"
)

var learnCommand = command{
	name: "learn", args: "[SHOP]", most: 1,
	summary: "say what the shop's own outcomes teach about breakage, prices, days, grades",
	text: "Reads the journals of all jobs that the shop's file lists (jobs = [\"car/job.toml\"] below [shop]): how " +
		"often pieces of each metal broke or were refused, what platers charged against what was agreed, how late they " +
		"were and how good. Starting values count as so many outcomes, fewer and fewer against your own." +
		"\nWith --out it writes a file that the shop may include; it never does so by itself, and never over a file that " +
		"is there. SHOP is a shop's file, or a folder with a shop.toml in it.",
	setup: func(flags *pflag.FlagSet) action {
		var o learnOptions
		flags.StringVar(&o.out, "out", "", "write what was learnt to `FILE`, for include in the shop's file")
		o.jsonFlag(flags, "write the answer as one JSON document (format 2)")
		return o.run
	},
}

type learnOptions struct {
	form
	out string
}

func (o *learnOptions) run(c *call) (int, error) {
	path := "shop.toml"
	if len(c.args) > 0 {
		path = c.args[0]
	}
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		path = filepath.Join(path, "shop.toml")
	}
	jobs, err := catalog.ShopJobs(path)
	if err != nil {
		return 0, err
	}
	var all []risk.Experience
	strength, own := 0, map[string]catalog.Micro{} // per plater, the factor of breakage that the shop gives
	for _, job := range jobs {
		st, err := catalog.Load(job, catalog.Options{})
		if err != nil {
			return 0, err
		}
		strength = st.Tables.Strength
		for i := range st.Platers {
			own[st.Platers[i].ID] = st.Platers[i].Factor
		}
		all = append(all, risk.Experiences(st)...)
	}
	lesson := &report.Lesson{Learnt: risk.Learn(all, strength), Jobs: len(jobs)}
	if o.out != "" {
		if err := writeLearnt(o.out, report.LearntFile(lesson, now().Format(time.DateOnly))); err != nil {
			return 0, err
		}
		fmt.Fprintf(c.err, "Written: %s. It counts once the shop's file includes it.\n%s", o.out,
			report.FactorsBefore(lesson, own))
	}
	return exitAnswered, o.show(c, answer{
		text: func() string { return report.Learn(lesson) },
		json: func() (string, error) { return report.LearnJSON(lesson) },
	})
}

// writeLearnt writes a file to be included, which must not be there yet.
func writeLearnt(path, text string) error {
	if !strings.HasSuffix(path, ".toml") {
		return usageError{fmt.Sprintf("%q is no name for a file to be included; type: --out learned.toml", path)}
	}
	err := disk.New(path, []byte(text))
	if errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("%s is there already, and nothing is written over it; name another file, or move that one away",
			path)
	}
	return err
}
