package safety

import (
	"maps"

	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// State is what is known of something that can be off, locked, open or unplugged.
type State int

// The states. AsFound holds for what was never touched and what was put back.
const (
	AsFound State = iota
	Set           // done by us, and nobody has been away since
	Unsure        // done by us before the job was resumed or handed over
)

// Device is what was done to a device.
type Device struct{ Off, Locked State }

// Enclosure is what was done to an enclosure. Proved is what its last form
// gave; ask World.Proved, which looks at the rest too.
type Enclosure struct {
	Open   State
	Proved bool
}

// Asked is what is known of a call.
type Asked string

// The states of a call. NotKnown is as found.
const (
	NotKnown Asked = ""
	On       Asked = "on"
	Off      Asked = "off"
	Lapsed   Asked = "lapsed" // touched and not known since: the job was resumed or handed over, or a proof broken off
)

// Call is what is known of a call and the minutes waited in that state. Stopped:
// the plant had its time to stop since it was withdrawn; power that comes back
// starts nothing that was not called again.
type Call struct {
	Asked   Asked
	Minutes float64
	Stopped bool
}

// World is what has been done to the plant. It is built from events alone and
// moves only forward: a retracted reading changes nothing here.
type World struct {
	Devices    map[string]Device
	Enclosures map[string]Enclosure
	Plugs      map[string]State // Set: unplugged
	Calls      map[string]Call
	Rested     map[string]float64 // minutes the outdoor unit has been off and locked, up to Discharge
	Read       map[string]bool    // checks read at least once, retracted or not
	Cannot     map[string]bool    // acts that could not be done, by Key
	Found      *Found             // a voltage found while proving, not yet cleared by a proof
	Finds      int                // voltages found in this job
	plant      *trees.Plant
	forms      *forms
}

// New gives the world of a job before anything was done.
func New(p *trees.Plant) *World {
	return &World{
		Devices: map[string]Device{}, Enclosures: map[string]Enclosure{}, Plugs: map[string]State{},
		Calls: map[string]Call{}, Rested: map[string]float64{}, Read: map[string]bool{}, Cannot: map[string]bool{}, plant: p, forms: newForms(p),
	}
}

// Clone gives a copy that moves on its own.
func (w *World) Clone() *World {
	c := *w
	c.Devices, c.Enclosures, c.Plugs = maps.Clone(w.Devices), maps.Clone(w.Enclosures), maps.Clone(w.Plugs)
	c.Calls, c.Rested, c.Read, c.Cannot = maps.Clone(w.Calls), maps.Clone(w.Rested), maps.Clone(w.Read), maps.Clone(w.Cannot)
	if w.Found != nil {
		f := *w.Found
		c.Found = &f
	}
	return &c
}

// Key names an act whatever its minutes.
func Key(a journal.Act) string { return a.Do + " " + a.On }

// Locked lists the devices that are off and locked by us for certain.
func (w *World) Locked() map[string]bool {
	m := map[string]bool{}
	for id, d := range w.Devices {
		if d.Off == Set && d.Locked == Set {
			m[id] = true
		}
	}
	return m
}

// Isolated says whether every supply that reaches the enclosure is kept out by
// a device off and locked.
func (w *World) Isolated(enclosure string) bool {
	locked := w.Locked()
	for _, s := range w.plant.Reaching(enclosure) {
		if !w.plant.DeadFrom(s, enclosure, locked) {
			return false
		}
	}
	return true
}

// Proved says whether the enclosure counts as proved dead now: its form was
// complete, it is open and isolated, and no power has been put back since.
func (w *World) Proved(enclosure string) bool {
	e := w.Enclosures[enclosure]
	return e.Proved && e.Open == Set && w.Found == nil && w.Isolated(enclosure)
}

// Powered says whether nothing in the supply's way was switched off by us, or
// is in doubt.
func (w *World) Powered(supply string) bool {
	for id, d := range w.Devices {
		if d != (Device{}) && w.plant.Device(id) != nil && w.plant.Device(id).Supply == supply {
			return false
		}
	}
	return true
}

// unpowered keeps the supplies that are not powered for certain.
func (w *World) unpowered(supplies []string) []string {
	var out []string
	for _, s := range supplies {
		if !w.Powered(s) {
			out = append(out, s)
		}
	}
	return out
}
