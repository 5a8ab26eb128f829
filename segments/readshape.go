package segments

import (
	"strings"

	"hubrule/internal/geom"
	"hubrule/segments/strict"
)

// outline reads the outline block. A file that extends nothing, or that names another form or a stance,
// starts from what its form brings; otherwise from the outline it inherits. Besides its numbers the block holds
// stance (the word "high"), doors (0, 2 or 4), intake (true, false), slide ([from, to], shares of the wheelbase),
// seats ([share, …] of the way from header to glass end), pillars ([{at, width, tilt}, …])
// and soften ({corner: [before, after], …}). A list replaces the one it inherits.
func (r *profileReader) outline() {
	s := &r.profile.Shape
	numbers := Numbers(s)
	keys := append([]string{"stance", "nose", "tail", "front-lens", "rear-lens", "face"}, numberKeys(numbers)...)
	t := r.top.At("outline").Table("key", append(keys, "doors", "intake", "slide", "seats", "pillars", "soften"))
	stance, named := t.Get("stance")
	if _, form := r.top.Get("form"); form || named || !r.extends {
		word, _ := stance.Choice("stance", []string{highStance})
		*s = shapeFor(r.profile.Form, word)
	}
	readFamilies(t, s)
	readNumbers(t, numbers)
	refuseIdle(t, s)
	if v, ok := t.Get("doors"); ok {
		doors := map[string]int{"0": 0, "2": 2, "4": 4}
		word, _ := v.Scalar()
		if s.Doors, ok = doors[word]; !ok {
			v.Want("0, 2 or 4")
		}
	}
	if v, ok := t.Get("intake"); ok {
		s.Intake, _ = v.Bool()
	}
	readLists(t, s)
	readFillets(t, &s.Fillets)
}

// refuseIdle reports numbers that would change nothing on this body.
func refuseIdle(t strict.Table, s *Shape) {
	for _, idle := range []struct {
		key   string
		holds bool
		why   string
	}{
		{"tail-lean", s.Tail.Step < 0, "under the lip of a cut tail"},
		{"nose-step", s.Nose.Tip > 0, "on a nose with a tip"},
		{"glass-rake", s.GlassTail > 0, "beside glass-tail, whose rake is glass-tail-rake"},
	} {
		if v, ok := t.Get(idle.key); ok && idle.holds {
			v.Problem("changes nothing %s; leave it out", idle.why)
		}
	}
}

// readFamilies reads the words that stand for a nose, a tail, lamps and a face; numbers beside them go over theirs.
func readFamilies(t strict.Table, s *Shape) {
	choose := func(key string, words []string, set func(word string)) {
		if v, ok := t.Get(key); ok {
			if word, ok := v.Choice(key, words); ok {
				set(word)
			}
		}
	}
	choose("nose", noseWords, s.setNose)
	choose("tail", tailWords, s.setTail)
	choose("front-lens", lensWords[:3], func(word string) { s.FrontLens = frontLens(word) })
	choose("rear-lens", lensWords, func(word string) { s.RearLens = rearLens(word) })
	choose("face", faceWords, func(word string) { s.Face = Face(word) })
}

// maxItems bounds the lists of pillars and seats: more than a side view can show.
const maxItems = 8

// The bounds of a sliding door's rail, in wheelbases; of a seat; of a fillet, in wheels (judged by eye).
var (
	slideRange  = Range{0, 1.5}
	seatRange   = Range{-.2, 1.2}
	filletRange = Range{0, 3}
)

func readLists(t strict.Table, s *Shape) {
	if ends := readList(t.At("slide"), 2, 2, slideRange); len(ends) == 2 {
		s.Slide = Range{ends[0], ends[1]}
		if ends[0] >= ends[1] {
			t.At("slide").Problem("%s to %s; want the smaller value first", strict.FormatNumber(ends[0]), strict.FormatNumber(ends[1]))
		}
	}
	if v, ok := t.Get("seats"); ok {
		s.Seats = readList(v, 0, maxItems, seatRange)
	}
	if v, ok := t.Get("pillars"); ok {
		items, _ := v.Items(0, maxItems)
		s.Pillars = nil
		for _, item := range items {
			s.Pillars = append(s.Pillars, readPillar(item))
		}
	}
}

// readList reads a list of least to most numbers.
func readList(v strict.Value, least, most int, allowed Range) []float64 {
	items, _ := v.Items(least, most)
	var numbers []float64
	for _, item := range items {
		if x, ok := item.Number(allowed.Lo, allowed.Hi); ok {
			numbers = append(numbers, x)
		}
	}
	return numbers
}

// readPillar reads a pillar, all of whose numbers are required.
func readPillar(v strict.Value) Pillar {
	var p Pillar
	numbers := Numbers(&p)
	keys := numberKeys(numbers)
	missing := readNumbers(v.Table("key", keys), numbers)
	if v.IsTable() && missing != nil {
		v.Problem("no %s; want %s", strings.Join(missing, ", "), strings.Join(keys, ", "))
	}
	return p
}

// readFillets reads the corners along the outline and then round the side glass.
func readFillets(t strict.Table, s *Fillets) {
	keys := []string{"chin", "edge", "cowl", "header", "roof", "base", "deck", "heel", "glass-1", "glass-2", "glass-3", "glass-4"}
	corners := []*Fillet{&s.Chin, &s.Edge, &s.Cowl, &s.Header, &s.Roof, &s.Base, &s.Deck, &s.Heel,
		&s.Glass[0], &s.Glass[1], &s.Glass[2], &s.Glass[3]}
	block := t.At("soften").Table("corner", keys)
	for i, key := range keys {
		if n := readList(block.At(key), 2, 2, filletRange); len(n) == 2 {
			*corners[i] = fillet(geom.Wheels(n[0]), geom.Wheels(n[1]))
		}
	}
}

// solid reads the solid block over the form's numbers, or over the inherited ones where the file keeps its parent's form.
func (r *profileReader) solid() {
	s := &r.profile.Solid
	if _, form := r.top.Get("form"); form || !r.extends {
		*s = solidFor(r.profile.Form)
	}
	numbers := Numbers(s)
	readNumbers(r.top.At("solid").Table("key", numberKeys(numbers)), numbers)
}
