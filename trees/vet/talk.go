package vet

import (
	"fmt"
	"regexp"
	"slices"

	"faultwalk/trees"
	"faultwalk/trees/strict"
)

// maxSay is the most, in bytes, that is said on the phone at a time: a minute
// of talk. Common practice, no source.
const maxSay = 1_000

// bench are words that belong to somebody with a meter in hand, never to
// somebody on the phone who has none.
var bench = regexp.MustCompile(`(?i)\b(volts?|voltage|ohms?|amps?|multimeter|meter|probes?|terminals?)\b`)

// wires are a colour and the core it names.
var wires = regexp.MustCompile(`(?i)\b(brown|blue|black|gr[ea]y|white|orange|red|yellow|green)\b(?:\W+\w+){0,2}\W+(?:wires?|cores?|leads?|cables?|conductors?|flex)\b`)

// talk looks at what would be read out over the phone: nothing that whoever is
// there may not do, and no word of the bench. What may be done on one plant
// has its words for that plant; the guard keeps them from the others.
func (v *vetting) talk(p *trees.Plant, pos strict.Pos, what, say string, n trees.Need) {
	if say == "" {
		return
	}
	if len(say) > maxSay {
		v.at(pos, Wording, fmt.Sprintf("what %s says on the phone has %d bytes; nobody keeps more than %d in mind", what, len(say), maxSay))
		return
	}
	f := v.fate(pos, "say", Wording, what+" has words for the phone (say), and neither a householder nor an installer may be talked through it on any plant: it asks "+
		joined(asked(n)), "")
	f.holds = f.holds || v.allowed(n)
	if w := bench.FindString(say); w != "" {
		v.at(pos, Wording, "what "+what+" says on the phone has the word "+quoted(w)+"; whoever is there measures nothing")
	}
	if w := wires.FindString(say); w != "" {
		v.at(pos, Wording, "what "+what+" says on the phone names a wire by its colour: "+quoted(w)+"; colour proves nothing, and they open nothing")
	}
	for _, m := range v.phrases(p).in(say) {
		v.on(p, pos, Wording, "what "+what+" says on the phone names the point "+quoted(m.point)+": "+quoted(m.text))
	}
}

// allowed says whether, in some jurisdiction, a householder or an installer
// may do all of a need with somebody on the phone.
func (v *vetting) allowed(n trees.Need) bool {
	asks := asked(n)
	for _, j := range v.set.Jurisdictions {
		if mayAll(j, "householder", asks) || mayAll(j, "installer", asks) {
			return true
		}
	}
	return false
}

// asked lists what the hands must be allowed to do for a need.
func asked(n trees.Need) []string {
	asks := slices.Clone(n.Asks)
	if len(n.Enclosures) > 0 && !slices.Contains(asks, "covers") {
		asks = append(asks, "covers")
	}
	if len(asks) == 0 {
		return []string{"look"}
	}
	return asks
}

func mayAll(j *trees.Jurisdiction, hands string, asks []string) bool {
	for _, a := range asks {
		g := gate(j, a)
		if g == nil || g.Who[hands] != "yes" || g.ByPhone != "yes" {
			return false
		}
	}
	return true
}
