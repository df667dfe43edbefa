package formula

// Value is what a part of a formula gives on one plant: a constant, or a
// function of the state S. True and false are 1 and 0, a word is its id.
type Value[S any] struct {
	Type   Type
	Known  bool // Number holds, whatever the state
	Number float64
	Get    func(S) float64 // set unless Known
}

// Constant is a number that holds whatever the state.
func Constant[S any](number float64) Value[S] {
	return Value[S]{Type: Numeric, Known: true, Number: number}
}

// Truth is true or false, whatever the state.
func Truth[S any](b bool) Value[S] { return Constant[S](truth(b)) }

// Of is a value that a function of the state gives.
func Of[S any](t Type, get func(S) float64) Value[S] { return Value[S]{Type: t, Get: get} }

// Func gives the value as a function, whether it is constant or not.
func (v Value[S]) Func() func(S) float64 {
	if !v.Known {
		return v.Get
	}
	number := v.Number
	return func(S) float64 { return number }
}

// Resolver gives the names of formulas their meaning on one plant, in one
// model. What it refuses is reported at the name: see [AtWord] and [AtField].
type Resolver[S any] struct {
	Words *Words
	// Name resolves a bare name.
	Name func(name string) (Value[S], error)
	// Call resolves a function that names things. Has must give a constant.
	Call func(c Call[S]) (Value[S], error)
}

// Call is one use of a function that names things.
type Call[S any] struct {
	Name  string   // one of Functions
	Words []string // the names in quotes
	Field string   // behind the dot: part("x").field
	Acts  []Act    // of after
	Of    Value[S] // the formula in the brackets of swings and after
}

// Words gives each word a number, so that words compare as fast as numbers.
// The zero value is ready. It may be used from several goroutines once no new
// words come.
type Words struct {
	ids   map[string]float64
	words []string
}

// ID gives the number of a word, the same for the same word. It is 1 or more.
func (w *Words) ID(word string) float64 {
	if id, known := w.ids[word]; known {
		return id
	}
	if w.ids == nil {
		w.ids = map[string]float64{}
	}
	w.words = append(w.words, word)
	w.ids[word] = float64(len(w.words))
	return w.ids[word]
}

// Word gives the word of a number; empty if there is none.
func (w *Words) Word(id float64) string {
	if i := int(id); i >= 1 && i <= len(w.words) && float64(i) == id {
		return w.words[i-1]
	}
	return ""
}
