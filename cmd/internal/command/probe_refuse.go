package command

import "strings"

// probeLists are the flags of probe that list something in place of reading.
var probeLists = []string{"points", "checks", "faults", "levels"}

// refused refuses flags that would be passed over.
func (o *probeFlags) refused() error {
	var lists []string
	for _, f := range probeLists {
		if o.given(f) {
			lists = append(lists, "--"+f)
		}
	}
	switch {
	case len(lists) > 1:
		return usage("%s: one list at a time", strings.Join(lists, " and "))
	case len(lists) == 1:
		return o.besideList(lists[0])
	case o.given("check") && o.oneOfGiven("from", "to", "read") != "":
		return usage("--check says itself what is read and where; leave out --from and --to and --read")
	case !o.given("check") && !o.given("from") && !o.given("to") && o.plant != "":
		return usage("probe: what is to be read? Give --check, or --from and --to; --checks and --points list what %s has", o.plant)
	}
	return nil
}

// besideList refuses what a list does not look at.
func (o *probeFlags) besideList(list string) error {
	if f := o.oneOfGiven("from", "to", "mode", "read", "check", "fault", "calling", "off", "unplugged"); f != "" {
		return usage("%s lists the whole plant; leave out --%s", list, f)
	}
	if o.levels && o.asJSON {
		return usage("--levels writes the file trees/levels/PLANT.yaml; leave out --json")
	}
	return nil
}

// oneOfGiven is the first of some flags that was given; empty for none.
func (o *probeFlags) oneOfGiven(flags ...string) string {
	for _, f := range flags {
		if o.given(f) {
			return f
		}
	}
	return ""
}
