package seeded

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"brightset/catalog"
)

// WriteFiles writes a job, as Job makes it, as a user would have written it: job.toml and
// shop.toml in a folder that is there. What they load as has the same plans at the same
// totals; the shop's pieces come after the job's.
func WriteFiles(st *catalog.State, folder string) error {
	job, shop := &file{st: st}, &file{st: st}
	job.head()
	for i := range st.Slots {
		job.slot(&st.Slots[i])
	}
	for i := range st.Matches {
		job.match(&st.Matches[i])
	}
	shop.shop()
	for i := range st.Pieces {
		if p := &st.Pieces[i]; p.InShop {
			shop.piece(p)
		} else {
			job.piece(p)
		}
	}
	for _, t := range st.Trades {
		job.table("trade", t.ID)
		job.text("give", st.Pieces[t.Give].ID)
		job.text("get", st.Pieces[t.Get].ID)
		job.text("credit", catalog.FormatMoney(t.Credit))
	}
	for name, f := range map[string]*file{"job.toml": job, "shop.toml": shop} {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(f.String()), 0o644); err != nil {
			return err
		}
	}
	return nil
}

// file is the text of one file.
type file struct {
	strings.Builder
	st *catalog.State
}

func (f *file) table(path ...string) { fmt.Fprintf(f, "\n[%s]\n", strings.Join(path, ".")) }

func (f *file) key(name, value string) { fmt.Fprintf(f, "%s = %s\n", name, value) }

func (f *file) text(name, value string) { f.key(name, strconv.Quote(value)) }

func (f *file) money(name string, v catalog.Cents) { f.text(name, catalog.FormatMoney(v)) }

func (f *file) texts(name string, list []string) {
	for i := range list {
		list[i] = strconv.Quote(list[i])
	}
	f.key(name, "["+strings.Join(list, ", ")+"]")
}

// points is a grade, a tone or a weight.
func (f *file) points(name string, v catalog.Val[catalog.Centi]) {
	if v.Set {
		f.key(name, centi(v.V))
	}
}

func (f *file) share(name string, v catalog.Val[catalog.Micro]) {
	if v.Set {
		f.key(name, micro(v.V))
	}
}

func centi(v catalog.Centi) string { return strconv.FormatFloat(float64(v)/100, 'f', 2, 64) }

func micro(v catalog.Micro) string { return strconv.FormatFloat(float64(v)/1e6, 'f', 6, 64) }

func (f *file) head() {
	job := &f.st.Job
	f.table("job")
	f.text("title", job.Title)
	f.text("currency", job.Currency)
	f.text("shop", "shop.toml")
	if job.Budget.Set {
		f.money("budget", job.Budget.V)
	}
	if job.WithinDays.Set {
		f.key("within_days", fmt.Sprint(job.WithinDays.V))
	}
	f.share("completion", job.Completion)
	f.table("target")
	f.points("floor", job.Target.Floor)
	f.points("mean", job.Target.Mean)
	if job.Target.Lasting.Set {
		f.key("lasting", fmt.Sprint(job.Target.Lasting.V))
	}
}

func (f *file) slot(s *catalog.Slot) {
	f.table("slot", s.ID)
	f.text("part", "part of "+s.Part) // no slot's id: what fits that slot alone doesn't fit the part
	f.text("area", micro(s.Area.V)+" dm2")
	f.key("weight", centi(s.Weight))
	f.key("quantity", fmt.Sprint(s.Quantity))
	f.money("rescue", s.Rescue.V)
	f.key("rescue_days", fmt.Sprint(s.RescueDays.V))
	f.share("max_breakage", s.MaxBreakage)
}

func (f *file) match(m *catalog.Match) {
	f.table("match", m.ID)
	f.texts("slots", f.slotIDs(m.Slots))
	f.points("grade_within", m.GradeWithin)
	f.points("tone_within", m.ToneWithin)
	f.key("same_plater", fmt.Sprint(m.SamePlater))
	f.key("fresh_alike", fmt.Sprint(m.FreshAlike))
}

func (f *file) slotIDs(slots []int) []string {
	var ids []string
	for _, s := range slots {
		ids = append(ids, f.st.Slots[s].ID)
	}
	return ids
}

func (f *file) piece(p *catalog.Piece) {
	f.table("piece", p.ID)
	f.texts("fits", f.slotIDs(p.Fits))
	f.text("kind", string(p.Kind))
	f.text("metal", f.st.Tables.Metals[p.Metal].Name)
	f.key("quantity", fmt.Sprint(p.Quantity))
	f.key("chance", micro(p.Chance))
	f.owner(p)
	f.points("grade", p.Grade)
	f.points("tone", p.Tone)
	for i := range p.Findings {
		d := &p.Findings[i]
		f.table("piece", p.ID, "finding", d.ID)
		f.text("defect", f.st.Tables.Defects[d.Defect].Name)
		f.text("severity", d.Severity.String())
		f.key("extent", micro(d.Extent))
		f.key("count", fmt.Sprint(d.Count))
		f.text("where", string(d.Where))
	}
	for i := range p.Quotes {
		q := &p.Quotes[i]
		f.table("piece", p.ID, "quote", q.ID)
		f.text("plater", f.st.Platers[q.Plater].ID)
		f.text("work", q.Work)
		f.text("level", q.Level)
		f.money("cost", q.Cost)
		f.text("firm", string(q.Firm))
		f.share("breakage", q.Breakage)
		f.share("refused", q.Refused)
		f.points("grade", q.Grade)
	}
}

// owner is whose a piece is, and what it takes to have it.
func (f *file) owner(p *catalog.Piece) {
	switch {
	case p.Bundle != catalog.None:
		f.text("bundle", f.st.Bundles[p.Bundle].ID)
	case p.Side == catalog.Vendors:
		f.text("owner", f.st.Vendors[p.Vendor].ID)
		f.money("price", p.Price)
	case p.Side == catalog.Shops:
		f.money("price", p.Price)
	case p.Value != 0:
		f.money("value", p.Value)
	}
}
