package trees

// Capabilities are the kinds of thing that hands may or may not do; the gates
// of a jurisdiction say who may. Some follow from a check's quantity, place
// and state, others an author asks for (`asks: [pipes]`).
var Capabilities = []string{
	"look",           // look and listen, nothing touched
	"controls",       // work the controller and room controls as any user
	"settings",       // open the installer pages and change what is set there
	"switches",       // work isolators, breakers and spurs
	"gauge",          // read a gauge
	"pipes",          // touch pipes and the cylinder: scalding
	"lever",          // work the lever of a valve: latched, it takes the high-limit's effect away
	"water",          // open, fill, vent or drain the water side
	"sensor-plug",    // part an extra-low voltage plug outside every mains enclosure
	"covers",         // take the cover off a mains enclosure
	"outdoor-unit",   // open the outdoor unit itself
	"live",           // measure with mains enclosures open and the supplies on
	"elv-volts",      // measure extra-low voltage with the plant on
	"part-neutral",   // part a neutral
	"insulation",     // test insulation, 250 V or 500 V from the tester
	"fit-mechanical", // fit a part that has no mains
	"fit-wiring",     // remake cores, replace mains parts
	"limit",          // reset or replace a high-limit thermostat
	"refrigerant",    // break into the refrigerant circuit
	"sealed",         // open a casing that is sealed against the user
	"main-earth",     // touch the main earthing of the installation
}

// Triggers are the moments at which a caution can be shown.
var Triggers = []string{
	"first",         // the first screen
	"danger",        // somebody says there is danger
	"cover",         // before a cover comes off
	"dead",          // before a circuit is proved dead
	"live",          // before a reading with the supplies on
	"low-impedance", // before a meter that loads the circuit is used
	"earth-pair",    // before a reading to earth or a case
	"restore",       // before power goes back
	"outdoor",       // work outside
	"hot",           // pipes and cylinders
	"lever",         // the lever or the head of a valve
	"pressure",      // the water side under pressure
	"limit",         // a high-limit thermostat
	"reset",         // before something is reset
	"call",          // before a call: the plant may start by itself
	"booster",       // before the booster is called
	"settings",      // before a setting is changed
	"neutral",       // a neutral will be parted
	"insulation",    // before an insulation test
	"elv",           // extra-low voltage and data
	"result",        // the result screen
	"leave",         // leaving the plant safe
	"frost",         // the plant may freeze
	"abroad",        // another country's wiring or law
	"height",        // work at height
}

// Hands are the kinds of person whose hands touch the plant.
var Hands = []string{"householder", "installer", "apprentice", "electrical"}

// PointRoles are what a point is for.
var PointRoles = []string{"live", "switched", "neutral", "earth", "elv"}

// PartKind says what a part joins on the plant and what is wrong when that
// link fails. Its two ways are terminal names.
type PartKind struct {
	Contact bool        // joins in and out: current passes when it is made
	Loads   [][2]string // pairs of terminals that current flows between when driven
	Fails   string      // the cause when its contact fails in a chain
}

// PartKinds is the table of what parts may be and join. Kinds without contact
// and loads join nothing for mains: a sensor is read at its terminals, a
// cylinder only stands there, an isolator's poles belong to its device, the
// service brings the mains, and water and rooms are no wiring at all.
var PartKinds = map[string]PartKind{
	"limit":      {Contact: true, Fails: "limit-open"},
	"thermostat": {Contact: true, Fails: "contact-open"},
	"output":     {Contact: true, Fails: "output-dead"},
	"fuse":       {Contact: true, Fails: "fuse-dead"},
	"relay":      {Contact: true, Fails: "contact-open"},
	"link":       {Contact: true, Fails: "link-missing"},
	"cut-out":    {Contact: true, Fails: "limit-open"},
	"end-switch": {Contact: true, Fails: "contact-open"},
	"contact":    {Contact: true, Fails: "contact-open"},
	"wired-stat": {Contact: true, Fails: "contact-open"},
	"timer":      {Contact: true, Fails: "contact-open"},

	"two-port":        {Loads: liveToNeutral},
	"zone-valve":      {Loads: liveToNeutral},
	"spring-diverter": {Loads: liveToNeutral},
	"pump":            {Loads: liveToNeutral},
	"element":         {Loads: liveToNeutral},
	"coil":            {Loads: liveToNeutral},
	"input":           {Loads: liveToNeutral},
	"electronics":     {Loads: liveToNeutral},
	"unit":            {Loads: liveToNeutral},
	"board":           {Loads: liveToNeutral},
	"receiver":        {Loads: liveToNeutral},
	"diverter":        {Loads: [][2]string{{"live", "neutral"}, {"switch", "neutral"}}},

	"isolator": {}, "cylinder": {}, "sensor": {}, "controller": {}, "setting": {}, "vessel": {},
	"service": {}, "water": {}, "rooms": {}, "stat": {}, "sensor-input": {}, "zones": {}, "volt-free-input": {},
}

var liveToNeutral = [][2]string{{"live", "neutral"}}

// Weights of a link that says nothing of its own, on the scale of the fault
// catalogue (a switch found off is 40). Common practice, no source.
const (
	coreWeight    = 3
	contactWeight = 1
	poleWeight    = 1
)
