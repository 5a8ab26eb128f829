package segments

import (
	"cmp"
	"strings"

	"hubrule/segments/strict"
)

// Tweak is a named change of a segment's typical plan, in moves that may be scaled and added up.
type Tweak struct {
	Name, Title, Summary string
	Moves                []Move            // in every form
	ByForm               map[Form][]Move   // further moves in that form
	refuse, noChange     map[Form]string   // sentence: makes no sense in that form; is so already
	conflicts            map[string]string // other tweak → sentence: cancel each other, or look wrong together
}

// Move shifts one figure: a declared or given one, or one of the parts greenhouse, body-side, wheelbase and pillar-foot.
type Move struct {
	Figure     Figure
	By         float64 // at strength 1, in the figure's own unit or in half-ranges
	HalfRanges bool
	Of         Figure   // whose half-ranges
	Below      *float64 // instead of −By per unit of negative strength, in the figure's own unit
	Toward     *Goal    // instead of By
	Why        string
}

// Goal is a share of the way to a value: strength·Share·(Value − typical), standing still from strength Until on.
// At negative strength it is Below per unit of strength.
type Goal struct {
	Value               float64
	BeforeTail          bool    // Value is counted forward from the tail
	Share, Until, Below float64 // 1 and 1 by default; Below in the figure's own unit
}

// AppliedTweak is a tweak and how strongly it is applied, −2 to 2.
type AppliedTweak struct {
	Tweak    *Tweak
	Strength float64
	Source   string // the name or path that it was found by
}

// strongest is the most that a tweak may be multiplied by, either way: judged by eye.
const strongest = 2

// TweakNames lists the tweaks that come with the program in display order.
func TweakNames() []string {
	return []string{"sporty", "tough", "stately", "roomy", "shorter", "longer", "cab-forward", "fastback"}
}

// Tweaks returns them.
func Tweaks() (all []*Tweak) {
	for _, name := range TweakNames() {
		all = append(all, readEmbedded("tweaks/", name, readTweak))
	}
	return all
}

// ParseAppliedTweak reads a tweak's name or path and how strongly it is applied: "longer", "sporty=0.8", "./mine.yaml=-0.5".
// The error says what was found and what is allowed.
func ParseAppliedTweak(text string) (name string, strength float64, err error) {
	// A path may hold a = of its own: the last one counts, and none in what ends as a file does.
	i := strings.LastIndexByte(text, '=')
	if i < 0 || strings.HasSuffix(text, ".yaml") || strings.HasSuffix(text, ".yml") {
		return text, 1, nil
	}
	name, number := text[:i], text[i+1:]
	if strength, err = (strict.Bounds{Lo: -strongest, Hi: strongest}).Parse(number); err != nil {
		return "", 0, err
	}
	return name, strength, nil
}

// Refusal returns why t makes no sense on p, in a sentence that begins with the tweak's name; "" where it does.
func (t *Tweak) Refusal(p *Profile) string { return t.sentence(p, p.refuse, t.refuse) }

// NoEffect returns why t changes nothing on p; "" where it does.
func (t *Tweak) NoEffect(p *Profile) string { return t.sentence(p, p.noChange, t.noChange) }

// sentence looks into the profile's words, then into the tweak's own.
func (t *Tweak) sentence(p *Profile, own map[string]string, byForm map[Form]string) string {
	if words := cmp.Or(own[t.Name], byForm[p.Form]); words != "" {
		return t.Name + ": " + words
	}
	return ""
}

// Conflicts returns a sentence for every two tweaks that cancel each other or look wrong together.
// Only tweaks of positive strength conflict: the sentences are not true of reversed tweaks.
func Conflicts(tweaks []AppliedTweak) []string {
	var out []string
	for i, a := range tweaks {
		for _, b := range tweaks[i+1:] {
			words := cmp.Or(a.Tweak.conflicts[b.Tweak.Name], b.Tweak.conflicts[a.Tweak.Name])
			if words != "" && a.Strength > 0 && b.Strength > 0 {
				out = append(out, words)
			}
		}
	}
	return out
}
