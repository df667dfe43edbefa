package walk_test

import (
	"slices"
	"strings"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/engine/monitor"
)

// soundJob is a job in which a steady caller dropped a call, isolated, opened,
// proved, put hands in, and measured live to earth; nothing in it is unsafe.
func soundJob(t *testing.T) (*caller, []journal.Event) {
	t.Helper()
	for seed := int64(1); seed < 400; seed++ {
		c := newCaller(seed, true)
		if wrong := c.call(); wrong != "" || len(c.unsafe) > 0 {
			continue
		}
		if events := c.job.Events(); c.rich(events) {
			return c, events
		}
	}
	t.Fatal("no steady caller came to isolate, prove, put hands in and measure live")
	return nil, nil
}

// rich tells a job that has something of everything the mutations spoil.
func (c *caller) rich(events []journal.Event) bool {
	var called, dropped, proved, dead, live bool
	for _, e := range events {
		switch b := e.Body.(type) {
		case *journal.Acted:
			called = called || b.Act.Do == journal.ActCall
			dropped = dropped || called && b.Act.Do == journal.ActRelease
			proved = proved || b.Act.Do == journal.ActProve
			dead = dead || proved && b.Act.Do == journal.ActClose
		case *journal.Read:
			live = live || proved && slices.ContainsFunc(b.Values, func(v journal.Value) bool { return v.Mode == "high impedance" && v.As != "" })
		}
	}
	return dropped && proved && dead && live
}

// monitorAll judges events on the plant the caller was at.
func (c *caller) monitorAll(events []journal.Event) []monitor.Finding {
	m := c.house.monitor(c.watched)
	var out []monitor.Finding
	for _, e := range events {
		out = append(out, m.See(e)...)
	}
	return out
}

// without leaves out the acts of a kind.
func without(events []journal.Event, do string) []journal.Event {
	return slices.DeleteFunc(slices.Clone(events), func(e journal.Event) bool {
		b, ok := e.Body.(*journal.Acted)
		return ok && b.Act.Do == do
	})
}

// withForms changes every proving form.
func withForms(events []journal.Event, change func(form []journal.Field) []journal.Field) []journal.Event {
	out := slices.Clone(events)
	for i, e := range out {
		if b, ok := e.Body.(*journal.Acted); ok && b.Act.Do == journal.ActProve {
			a := *b
			a.Form = change(slices.Clone(b.Form))
			out[i].Body = &a
		}
	}
	return out
}

// set gives the first line of a form whose name is so another value.
func set(suffix string, value float64) func([]journal.Field) []journal.Field {
	return func(form []journal.Field) []journal.Field {
		for i, f := range form {
			if strings.HasSuffix(f.Name, suffix) {
				form[i].Value = value
				return form
			}
		}
		return form
	}
}

// left leaves out the line of that name.
func left(name string) func([]journal.Field) []journal.Field {
	return func(form []journal.Field) []journal.Field {
		return slices.DeleteFunc(form, func(f journal.Field) bool { return f.Name == name })
	}
}

// before puts an event before the first that is so.
func before(events []journal.Event, is func(body any) bool, body any) []journal.Event {
	at := slices.IndexFunc(events, func(e journal.Event) bool { return is(e.Body) })
	return slices.Insert(slices.Clone(events), max(at, 0), journal.Event{N: at + 1, Kind: journal.KindOf(body), Body: body})
}

// retold changes the hands, or the mode of every reading.
func retold(events []journal.Event, hands string, mode string) []journal.Event {
	out := slices.Clone(events)
	for i, e := range out {
		switch b := e.Body.(type) {
		case *journal.Handed:
			h := *b
			if hands != "" {
				h.Hands.Kind = hands
			}
			out[i].Body = &h
		case *journal.Read:
			r := *b
			r.Values = slices.Clone(b.Values)
			for k := range r.Values {
				if mode != "" {
					r.Values[k].Mode = mode
				}
			}
			out[i].Body = &r
		}
	}
	return out
}

func isAct(do string) func(any) bool {
	return func(body any) bool {
		b, ok := body.(*journal.Acted)
		return ok && b.Act.Do == do
	}
}

// unlocked takes the first lock of a job off again.
func unlocked(events []journal.Event) *journal.Acted {
	at := slices.IndexFunc(events, func(e journal.Event) bool { return isAct(journal.ActLock)(e.Body) })
	on := events[at].Body.(*journal.Acted).Act.On
	return &journal.Acted{Act: journal.Act{Do: journal.ActUnlock, On: on}, Outcome: journal.Done}
}

// A monitor that finds nothing in random jobs must not be one that never finds.
func TestMonitorSeesWhatSpoilsASoundJob(t *testing.T) {
	t.Parallel()
	c, events := soundJob(t)
	for _, f := range c.monitorAll(events) {
		t.Fatalf("the sound job is unsafe: %+v", f)
	}
	taken := slices.Clone(events)
	for _, e := range events {
		if e.Kind == journal.KindActed || e.Kind == journal.KindRead {
			taken = append(taken, journal.Event{N: e.N, Kind: journal.KindRetracted, Body: &journal.Retracted{Event: e.N}})
		}
	}
	if found := c.monitorAll(taken); len(found) > 0 {
		t.Errorf("taking back in the mind made it unsafe: %v", found)
	}
	for name, m := range map[string]struct {
		events []journal.Event
		says   string
	}{
		"no lock":                     {without(events, journal.ActLock), "not off and locked"},
		"nothing switched off":        {without(events, journal.ActSwitchOff), "not off and locked"},
		"no proof":                    {without(events, journal.ActProve), "not proved dead"},
		"no cover off":                {without(events, journal.ActOpen), "the cover of"},
		"no demand dropped":           {without(events, journal.ActRelease), "under load"},
		"the tester never proved":     {withForms(events, set("tester proved before", 0)), "not proved dead"},
		"not proved again after":      {withForms(events, set("tester proved after", 0)), "not proved dead"},
		"the screen lit at the proof": {withForms(events, set("controller dark", 0)), "voltage found"},
		"nobody looked at the screen": {withForms(events, left("controller dark")), "not proved dead"},
		"a pair left out":             {withForms(events, func(f []journal.Field) []journal.Field { return slices.Delete(f, len(f)/2, len(f)/2+1) }), "not proved dead"},
		"a voltage read past":         {withForms(events, set("earth", 118)), "voltage found"},
		"an installer's hands":        {retold(events, "installer", ""), "by installer hands"},
		"a householder's hands":       {retold(events, "householder", ""), "by householder hands"},
		"low impedance everywhere":    {retold(events, "", "low impedance"), "to earth or a case"},
		"paused before a cover goes":  {before(events, isAct(journal.ActClose), &journal.Resumed{}), "not proved dead"},
		"power back before it goes":   {before(events, isAct(journal.ActClose), unlocked(events)), "not proved dead"},
		"closed before it is done":    {before(events, isAct(journal.ActProve), &journal.Closed{As: journal.Referred}), "after the job was closed"},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			found := c.monitorAll(m.events)
			if !slices.ContainsFunc(found, func(f monitor.Finding) bool { return strings.Contains(f.What, m.says) }) {
				t.Errorf("found %v; expected something that says %q", found, m.says)
			}
		})
	}
}
