package rehearse

import (
	"faultwalk/engine/journal"
	"faultwalk/measurements"
)

// Person is somebody whose hands take the checks, under a name for the report.
type Person struct {
	Name  string
	Hands journal.Hands
}

// Engineer is who a rehearsal is about unless somebody else is named:
// electrically competent, certified for unvented hot water, at the plant, with
// every instrument of the kit and a proving unit.
func Engineer(kit measurements.Kit) Person {
	return Person{"engineer", equipped("electrical", kit, "unvented")}
}

// Everyone lists the other people, each with the kit such hands carry. Only
// looks and controls are left to a householder.
func Everyone(kit measurements.Kit) []Person {
	watched := equipped("apprentice", kit)
	watched.Supervisor = "A. Supervisor"
	all := []Person{
		{"engineer without certificates", equipped("electrical", kit)},
		{"apprentice, watched", watched},
		{"apprentice, alone", equipped("apprentice", kit)},
		{"installer", equipped("installer", kit, "unvented")},
		{"householder", journal.Hands{Kind: "householder"}},
	}
	phones := []Person{Engineer(kit)}
	phones = append(phones, all...)
	for _, p := range phones {
		p.Name += ", by phone"
		p.Hands.Phone = true
		all = append(all, p)
	}
	return all
}

func equipped(kind string, kit measurements.Kit, certificates ...string) journal.Hands {
	h := journal.Hands{Kind: kind, Certificates: certificates, ProvingUnit: kit.ProvingUnit}
	for _, in := range kit.Instruments {
		h.Kit = append(h.Kit, in.ID)
	}
	return h
}
