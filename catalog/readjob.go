package catalog

import (
	"fmt"

	"brightset/catalog/standard"
)

// readJob reads [job] and the job's target.
func (l *loader) readJob() {
	l.state.Job.Currency = "USD"
	if l.job == nil {
		return
	}
	t := l.job.sub("job", "[job]")
	if t == nil {
		l.partial = true // it would have named the shop's file
		if _, there := l.job.m["job"]; !there {
			hint := `write [job] and below it title = "..."`
			if l.job.peek("shop") != nil {
				hint = "this looks like a shop's file: name the job's file, which names this one"
			}
			l.mistake(l.job.doc, span{line: 1, column: 1, width: 1}, "there is no [job] table", hint)
		}
		return
	}
	job := &l.state.Job
	if t.need("title", `write title = "...", what is being restored`) {
		if job.Title = t.name("title"); t.m["title"] == "" {
			t.wrong("title", "the title is empty", "write what is being restored")
		}
	}
	t.currency()
	t.raw("shop") // read with the files
	l.readTarget(t)
	job.Budget = t.money("budget")
	job.BudgetOn = map[string]BudgetOn{"expected": OnExpected, "quote": OnQuote}[t.word("budget_on", "outlay",
		"expected", "quote")]
	if job.BudgetOn == OnQuote && l.job.peek("quote") == nil && (l.shop == nil || l.shop.peek("quote") == nil) {
		t.wrong("budget_on", "there is no quote to the owner",
			`write [quote] with your markups, labour and tax, such as plating = 0.15, or budget_on = "outlay"`)
	}
	if t.has("budget_on") && !t.has("budget") {
		t.wrongKey("budget_on", "budget_on without a budget", `write budget = "3500.00" as well, or leave budget_on out`)
	}
	job.Keep = t.money("keep").V
	job.WithinDays = t.whole("within_days", 0, MaxDays)
	job.Start = t.date("start")
	job.Service = t.service()
	if job.Start.Set && !l.opt.Today.IsZero() && job.Start.V.Before(dayOf(l.opt.Today)) {
		t.l.warn(job.Start.From, fmt.Sprintf("the start, %s, is in the past; the days count from there",
			job.Start.V.Format("2006-01-02")))
	}
	if job.Completion = t.share("completion"); job.Completion.Set && job.Completion.V == 0 {
		t.wrong("completion", "a chance of 0 asks nothing", "write completion = 0.9, or leave the key out")
	}
	over(&l.defaults.Rescue, t.money("rescue"))
	over(&l.defaults.RescueDays, t.whole("rescue_days", 0, MaxDays))
	t.done()
}

// service reads how hard the use is, in the words of the plating standard.
func (t *table) service() standard.Service {
	v, ok := t.raw("service")
	if !ok {
		return 0
	}
	text := ""
	if n, ok := v.(int64); ok {
		text = fmt.Sprintf("SC%d", n)
	} else if text = t.exactly("service"); text == "" && v != "" {
		return 0 // said already
	}
	s, ok := standard.ParseService(text)
	if _, isText := v.(string); ok && isText {
		return s
	}
	var words []string
	for _, w := range standard.ServiceWords {
		words = append(words, w.Word)
	}
	hint := meant(text, words, "")
	if ok {
		hint = fmt.Sprintf("write service = %q, which is SC%d", words[s-1], int(s))
	}
	t.wrong("service", fmt.Sprintf("unknown service %q", clip(shown(v))), hint)
	return 0
}

// currency reads the code of the job's currency.
func (t *table) currency() {
	s := t.exactly("currency")
	if s == "" && !t.has("currency") {
		return
	}
	if len(s) != 3 || s[0] < 'A' || s[0] > 'Z' || s[1] < 'A' || s[1] > 'Z' || s[2] < 'A' || s[2] > 'Z' {
		t.wrong("currency", fmt.Sprintf("%q is no code of a currency", clip(s)),
			`write three capital letters, such as "USD" or "EUR"`)
		return
	}
	t.l.state.Job.Currency = s
}

// readTarget finds out what the set has to reach: a named target in [job], or
// the keys of [target], or both, the keys over the named one.
func (l *loader) readTarget(job *table) {
	target := &l.state.Job.Target
	if _, isTable := job.m["target"].(map[string]any); isTable {
		sub := job.sub("target", "[job.target]")
		sub.overlayGoals(target, true)
		sub.done()
	} else {
		*target = job.namedTarget()
	}
	own, isTable := l.job.m["target"].(map[string]any)
	if !isTable {
		return
	}
	t := l.job.sub("target", "[target]")
	for key, v := range own {
		if _, named := v.(map[string]any); named {
			t.raw(key)
		}
	}
	if t.overlayGoals(target, true) != (Target{}) {
		target.Name = ""
	}
	t.done()
}

// namedTarget reads the name under the key target and gives that target; an
// empty one where there is none.
func (t *table) namedTarget() Target {
	if i := t.ref("target", t.l.targets); i != None {
		return t.l.state.Tables.Targets[i]
	}
	return Target{}
}

// readSlots reads [slot.NAME].
func (l *loader) readSlots() {
	if l.job == nil {
		return
	}
	for _, t := range l.job.named("slot") {
		if !l.slots.addOnce(t) {
			continue
		}
		target, own := t.slotTarget()
		area, written := t.area("area")
		s := Slot{
			ID: t.id, Name: t.nameOr(t.id), Part: t.id, Area: area, AreaWritten: written,
			Weight:   number(t, "weight", 0, MaxWeight, 100).Or(1_00),
			Quantity: t.whole("quantity", 1, MaxQuantity).Or(1),
			Target:   target, Own: own, Rescue: l.defaults.Rescue, RescueDays: l.defaults.RescueDays,
			MaxBreakage: t.share("max_breakage"), Keep: t.money("keep").Or(l.state.Job.Keep),
			Bears: t.flag("bears").V, Service: l.state.Job.Service, From: t.here(),
		}
		if own := t.service(); own != 0 {
			s.Service = own
		}
		if part := t.exactly("part"); part != "" {
			s.Part = part
		}
		over(&s.Rescue, t.money("rescue"))
		over(&s.RescueDays, t.whole("rescue_days", 0, MaxDays))
		l.state.Slots = append(l.state.Slots, s)
		t.done()
	}
}

// slotTarget gives what a slot has to reach: the job's, or the named target of
// the slot's own instead, and over that the slot's single keys; and which of it is
// the slot's own.
func (t *table) slotTarget() (Target, OwnGoals) {
	target, own := t.l.state.Job.Target, OwnGoals{Named: t.has("target")}
	if own.Named {
		target = t.namedTarget()
	}
	own.Keys = t.overlayGoals(&target, false)
	return ofSlot(target, own), own
}
