package segments

// Tweak is a named change of a segment's typical plan, in moves that may be scaled and added up.
type Tweak struct {
	Name, Title, Line string
	Moves             []Move          // in every form
	ByForm            map[Form][]Move // besides, in that form
	Refuse, NoChange  map[Form]string // sentence: makes no sense in that form; is so already
}

// Move shifts one figure: a declared or given one, or one of the parts greenhouse, body-side, wheelbase and pillar-foot.
type Move struct {
	Figure     Figure
	By         float64 // at strength 1, in the figure's own unit or in half-ranges
	HalfRanges bool
	Of         Figure // whose half-ranges
	Toward     *Goal  // instead of By
	Why        string
}

// Goal is a share of the way to a value: strength·Share·(Value − typical), standing still from strength Until on.
// At negative strength it is Below per unit of strength.
type Goal struct {
	Value               float64
	BeforeTail          bool // Value is counted forward from the tail
	Share, Until, Below float64
}

// Dose is a tweak and how strongly it is applied, −2 to 2.
type Dose struct {
	Tweak    *Tweak
	Strength float64
}
