package rehearse

// Summary is the report as figures, for programs.
type Summary struct {
	Plants       []string       `json:"plants"`
	Symptoms     []string       `json:"symptoms"`
	Persons      []string       `json:"persons"`
	Faults       int            `json:"faults"`
	Walks        int            `json:"walks"`
	Exact        int            `json:"exact"`
	Grouped      int            `json:"grouped"`
	Wrong        int            `json:"wrong"`
	Referred     int            `json:"referred"`
	PassedOn     int            `json:"passed_on"`
	Unresolved   int            `json:"unresolved"`
	Unsafe       int            `json:"unsafe"`
	NoTree       int            `json:"no_tree"`
	Silent       int            `json:"without_sign"`
	MeanMinutes  float64        `json:"mean_minutes"`
	WorstMinutes float64        `json:"worst_minutes"`
	Moved        int            `json:"meter_moved"`
	Halts        int            `json:"proof_found_volts"`
	Weighted     Shares         `json:"weighted"`
	Shares       Shares         `json:"shares"`
	Gates        []Gate         `json:"gates"`
	Unproved     []Unproved     `json:"healthy_plant_fails"`
	Proofs       int            `json:"proofs_taken"`
	Second       map[Second]int `json:"second_readings"`
	Opposed      int            `json:"second_readings_with_rival"`
	Silenced     []Unopposed    `json:"rival_passes_too"`
	Failed       []Failed       `json:"not_simulated"`
	Untaken      []string       `json:"branches_never_taken"`
	Unreached    []string       `json:"causes_unexplained"`
	Untrue       []string       `json:"reasons_untrue"`
	Unfound      []Unfound      `json:"causes_not_reached"`
	Seconds      float64        `json:"seconds"`
	Cases        []Line         `json:"cases"`
}

// Shares are parts of all cases but those passed on, 0 to 1.
type Shares struct {
	Exact      float64 `json:"exact"`
	Grouped    float64 `json:"grouped"`
	Wrong      float64 `json:"wrong"`
	Referred   float64 `json:"referred"`
	Unresolved float64 `json:"unresolved"`
	Unsafe     float64 `json:"unsafe"`
}

// Line is one case.
type Line struct {
	Plant     string   `json:"plant"`
	Symptom   string   `json:"symptom"`
	Fault     string   `json:"fault"`
	Person    string   `json:"person"`
	Forgotten string   `json:"forgotten,omitempty"`
	Draw      int      `json:"draw,omitempty"`
	Shadowed  bool     `json:"shadowed,omitempty"`
	Weight    float64  `json:"weight"`
	Verdict   Verdict  `json:"verdict"`
	End       string   `json:"end"`
	Why       string   `json:"why,omitempty"`
	Words     string   `json:"words"`                 // the fault, for people
	Right     []string `json:"right_ends,omitempty"`  // where a walk has found it
	Place     string   `json:"ended_at,omitempty"`    // file:line:col of the branch that ended the walk
	Meter     []string `json:"meter_moved,omitempty"` // checks whose meter moved the plant, and what
	Minutes   float64  `json:"minutes"`
	Steps     []string `json:"steps,omitempty"`
}

// Summary gives the figures of all cases, and those cases that are listed; nil
// lists every one. Steps are given of the cases that steps wants. Seconds is how
// long it took, which only the caller knows.
func (r *Report) Summary(seconds float64, listed, steps func(*Case) bool) Summary {
	f := r.Figures(nil)
	s := Summary{Plants: list(r.Plants), Symptoms: list(r.Symptoms), Persons: list(r.Persons), Faults: r.Faults, Walks: f.Walks,
		Exact: f.Of[Exact].Cases, Grouped: f.Of[Grouped].Cases, Wrong: f.Of[Wrong].Cases, Referred: f.Of[Referred].Cases,
		PassedOn: f.Of[PassedOn].Cases, Unresolved: f.Of[Unresolved].Cases, Unsafe: f.Of[Unsafe].Cases,
		NoTree: len(r.NoTree), Silent: len(r.Silent), MeanMinutes: tenths(f.Mean), WorstMinutes: tenths(f.Worst), Moved: f.Moved,
		Halts: f.Halts, Gates: r.Gates, Unproved: list(r.Unproved), Proofs: r.Proofs, Second: r.Second, Opposed: r.Opposed, Silenced: list(r.Silenced), Failed: list(r.Failed), Untaken: list(r.Untaken), Unreached: list(r.Unreached), Untrue: list(r.Untrue), Unfound: list(r.Unfound), Seconds: seconds,
		Cases: []Line{}}
	s.Shares = sharesOf(f, func(c Count) float64 { return c.Share })
	s.Weighted = sharesOf(f, func(c Count) float64 { return c.Weighted })
	for _, c := range r.Cases {
		if listed == nil || listed(c) {
			s.Cases = append(s.Cases, c.line(steps(c)))
		}
	}
	return s
}

func (c *Case) line(steps bool) Line {
	l := Line{Plant: c.Plant, Symptom: c.Symptom, Fault: c.Fault, Person: c.Person, Forgotten: c.Forgotten, Draw: c.Draw, Shadowed: c.Shadowed,
		Weight: c.Weight, Verdict: c.Verdict, End: c.End, Why: c.Why, Minutes: tenths(c.Minutes), Words: c.Words, Right: c.Right(), Place: c.Place(),
		Meter: c.Meter()}
	if steps {
		l.Steps = c.Steps()
	}
	return l
}

func sharesOf(f Figures, of func(Count) float64) Shares {
	return Shares{of(f.Of[Exact]), of(f.Of[Grouped]), of(f.Of[Wrong]), of(f.Of[Referred]), of(f.Of[Unresolved]), of(f.Of[Unsafe])}
}

// list is a list that JSON writes as one when it is empty too.
func list[T any](of []T) []T {
	if of == nil {
		return []T{}
	}
	return of
}
