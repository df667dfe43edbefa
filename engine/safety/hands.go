package safety

import (
	"fmt"
	"strings"

	"faultwalk/trees"
)

// The referrals this package names; their words are in trees/referrals.
const (
	beyondHands  = "beyond-hands"
	supervisor   = "supervisor-needed"
	unvented     = "unvented"
	refrigerant  = "refrigerant"
	sealedPower  = "sealed-power"
	noInstrument = "no-instrument"
	noIsolation  = "cannot-isolate"
	voltageFound = "voltage-found"
	testerFailed = "tester-failed"
	tripsAgain   = "trips-again"
)

// May says whether the hands may do a kind of thing (trees.Capabilities), by
// the gates of the jurisdiction; nil means yes. A gate that does not exist
// lets nobody through.
func May(ctx Context, capability string) *Refusal {
	if ctx.Jurisdiction == nil {
		return mayLook(capability)
	}
	for _, g := range ctx.Jurisdiction.Gates {
		if g.May == capability {
			return through(ctx, g)
		}
	}
	return &Refusal{Why: fmt.Sprintf("no rule of %s says who may do this (%s), so nobody is asked to", ctx.Jurisdiction.Name, capability), Referral: beyondHands, Kind: Hands}
}

// mayLook is all that is left without a jurisdiction.
func mayLook(capability string) *Refusal {
	if capability == "look" {
		return nil
	}
	return &Refusal{Why: "this country's rules are not known here, so only looking and listening is left: its licensed practice applies", Referral: beyondHands, Kind: Hands}
}

// through judges one gate: the kind of hands, their certificates, the phone.
func through(ctx Context, g trees.Gate) *Refusal {
	h := ctx.Hands
	no := func(referral, why string, a ...any) *Refusal {
		return &Refusal{Why: fmt.Sprintf(why, a...), Referral: referral, Kind: Hands}
	}
	who := g.Who[h.Kind]
	switch {
	case who != "yes" && who != "supervised":
		return no(refersTo(g), "%s: not for these hands", g.Words)
	case who == "supervised" && strings.TrimSpace(h.Supervisor) == "":
		return no(supervisor, "%s: only with a supervisor there, by name", g.Words)
	case h.Phone && g.ByPhone != "yes":
		return no(refersTo(g), "%s: never talked through by phone", g.Words)
	}
	for _, c := range g.Needs {
		if !contains(h.Certificates, c) {
			return no(certificate(c), "%s: needs somebody certified for it (%s)", g.Words, c)
		}
	}
	return nil
}

// refersTo is where a gate sends those it does not let through.
func refersTo(g trees.Gate) string {
	switch {
	case g.May == "sealed":
		return sealedPower
	case len(g.Needs) > 0:
		return certificate(g.Needs[0])
	}
	return beyondHands
}

// certificate is the referral to somebody who holds it.
func certificate(c string) string {
	switch c {
	case "unvented":
		return unvented
	case "refrigerant":
		return refrigerant
	}
	return beyondHands
}
