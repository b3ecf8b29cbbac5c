package bench

import (
	"context"
	"net/http"
	"time"

	"brightset/catalog"
	"brightset/catalog/event"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/ask"
	"brightset/solver"
)

// stepBack is a step back from what is asked, with which a set fits: what it is, what the set then
// comes to, and the fields of the form that takes it.
type stepBack struct {
	Text, Button string
	Fields       []field
}

// clashTime is how long is looked for what clashes.
const clashTime = 20 * time.Second

// clashPart says why nothing fits, and has a button for every step back that is enough.
func (s *Server) clashPart(w http.ResponseWriter, r *http.Request) {
	d := s.forPart(w)
	if d == nil {
		return
	}
	p, err := s.plan(r.Context(), d.State)
	if err != nil || p.Has {
		http.NotFound(w, r)
		return
	}
	c, err := answered(r.Context(), s, d.State, question{"clash", catalog.None}, clashTime,
		func(ctx context.Context) (*ask.Explanation, error) {
			return ask.Explain(ctx, d.State, solver.Settings{})
		})
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	f := frame{Base: stamp(d), Token: newToken(), Here: back(r.FormValue("back"))}
	s.show(w, http.StatusOK, "clash", map[string]any{"F": f, "Clash": clashWords(c), "Steps": stepsBack(d.State, c),
		"Text": report.Infeasible(p, c)})
}

func clashWords(c *ask.Explanation) (all []string) {
	for i := range c.Conflict {
		all = append(all, c.Conflict[i].Words)
	}
	return all
}

func stepsBack(st *catalog.State, c *ask.Explanation) (all []stepBack) {
	for i := range c.Relaxations {
		g := &c.Relaxations[i]
		if g.Plan == nil || !g.Plan.Has {
			continue
		}
		one := stepBack{Text: report.StepText(g)}
		one.Button, one.Fields = stepForm(st, g)
		all = append(all, one)
	}
	return all
}

// stepForm is the act of a step back, where one act takes it.
func stepForm(st *catalog.State, g *ask.Relaxation) (button string, fields []field) {
	act := func(a event.Action, target string, more ...field) []field {
		return append([]field{{"action", string(a)}, {"target", target}}, more...)
	}
	terms := func(name, value string) []field {
		return act(event.Terms, string(event.TableJob), field{name, value})
	}
	k := g.Requirement.Index()
	switch {
	case g.Requirement.Kind == "lock":
		return "Leave it to the plan", act(event.Unlock, st.Slots[st.Locks[k].Slot].ID)
	case g.Requirement.Kind == "ban":
		return "Allow it again", act(event.Unban, st.Bans[k].ID)
	case g.Requirement.Kind == "match":
		return "They need not match", act(event.Removed, st.Matches[k].ID, field{"what", string(event.TableMatch)})
	case g.Requirement.Kind == "hung":
		return "It was taken down again", act(event.Unhung, st.Pieces[k].Key())
	case g.Requirement.Kind == "sent":
		return "It was taken back", act(event.Recalled, st.Pieces[k].Key())
	case g.State == nil:
		return "", nil
	case g.Requirement.Kind == "slot":
		v := catalog.FormatCenti(g.State.Slots[k].Target.Floor.V)
		return "Ask for grade " + v + " there", act(event.Slot, st.Slots[k].ID, field{"floor", v})
	case g.Requirement.Kind == "mean":
		v := catalog.FormatCenti(g.State.Job.Target.Mean.V)
		return "Ask for a mean of " + v, terms("mean", v)
	case g.Requirement.Kind == "budget":
		v := catalog.FormatMoney(g.State.Job.Budget.V + g.State.Job.SpentSum)
		return "Make the budget " + v, terms("budget", v)
	case g.Requirement.Kind == "date":
		v := catalog.FormatCenti(catalog.Centi(g.State.Job.WithinDays.V) * 100)
		return "Allow " + v + " days", terms("days", v)
	case g.Requirement.Kind == "completion":
		v := catalog.FormatMicro(g.State.Job.Completion.V)
		return "Ask for " + report.Percent(g.State.Job.Completion.V) + " only", terms("completion", v)
	}
	return "", nil
}
