package segments

import (
	"strconv"
	"strings"

	"hubrule/internal/geom"
	"hubrule/segments/strict"
)

// outline reads the outline block. A file that extends nothing, or that names another form or a stance,
// starts from what its form brings; otherwise from the outline it inherits.
func (r *profileReader) outline() {
	p := r.profile
	v, there := r.top.Get("outline")
	var t strict.Table
	if there {
		t = v.Table("key", shapeKeys())
	}
	stance, named := t.Get("stance")
	if _, form := r.top.Get("form"); form || named || !r.extends {
		word := ""
		if named {
			word, _ = stance.Choice("stance", []string{highStance})
		}
		p.Shape = shapeFor(p.Form, word)
	}
	for _, n := range shapeNumbers() {
		if v, ok := t.Get(n.Key); ok {
			if x, ok := v.Number(n.Lo, n.Hi); ok {
				*n.In(&p.Shape) = x
			}
		}
	}
	readDoors(t, &p.Shape)
	readLists(t, &p.Shape)
	readSoften(t, &p.Shape)
}

func shapeKeys() []string {
	keys := []string{"stance"}
	for _, n := range shapeNumbers() {
		keys = append(keys, n.Key)
	}
	return append(keys, "doors", "intake", "slide", "seats", "pillars", "soften")
}

func readDoors(t strict.Table, s *Shape) {
	if v, ok := t.Get("doors"); ok {
		switch word, _ := v.Scalar(); word {
		case "0", "2", "4":
			s.Doors, _ = strconv.Atoi(word)
		default:
			v.Want("0, 2 or 4")
		}
	}
	if v, ok := t.Get("intake"); ok {
		s.Intake, _ = v.Bool()
	}
}

// mostItems bounds the lists of pillars and seats: more than a side view can show.
const mostItems = 8

func readLists(t strict.Table, s *Shape) {
	if v, ok := t.Get("slide"); ok {
		if ends := readNumbers(v, 2, 2, slideRange()); len(ends) == 2 {
			s.Slide = Range{ends[0], ends[1]}
			if ends[0] >= ends[1] {
				v.Problem("%s to %s; want the smaller value first", strict.FormatNumber(ends[0]), strict.FormatNumber(ends[1]))
			}
		}
	}
	if v, ok := t.Get("seats"); ok {
		s.Seats = readNumbers(v, 0, mostItems, seatRange())
	}
	v, ok := t.Get("pillars")
	if !ok {
		return
	}
	items, _ := v.Items(0, mostItems)
	s.Pillars = nil
	for _, item := range items {
		s.Pillars = append(s.Pillars, readPillar(item))
	}
}

func readNumbers(v strict.Value, least, most int, allowed Range) []float64 {
	items, _ := v.Items(least, most)
	var numbers []float64
	for _, item := range items {
		if x, ok := item.Number(allowed.Lo, allowed.Hi); ok {
			numbers = append(numbers, x)
		}
	}
	return numbers
}

func readPillar(v strict.Value) Pillar {
	var p Pillar
	var keys, missing []string
	for _, n := range pillarNumbers() {
		keys = append(keys, n.Key)
	}
	t := v.Table("key", keys)
	for _, n := range pillarNumbers() {
		number, ok := t.Get(n.Key)
		if !ok {
			missing = append(missing, n.Key)
			continue
		}
		*n.In(&p), _ = number.Number(n.Lo, n.Hi)
	}
	if v.IsTable() && missing != nil {
		v.Problem("no %s; want %s", strings.Join(missing, ", "), strings.Join(keys, ", "))
	}
	return p
}

func readSoften(t strict.Table, s *Shape) {
	v, ok := t.Get("soften")
	if !ok {
		return
	}
	var keys []string
	for _, c := range shapeCorners() {
		keys = append(keys, c.Key)
	}
	corners := v.Table("corner", keys)
	for _, c := range shapeCorners() {
		pair, ok := corners.Get(c.Key)
		if !ok {
			continue
		}
		if n := readNumbers(pair, 2, 2, Range{0, maxSetback}); len(n) == 2 {
			*c.In(s) = Setback{Before: geom.Wheels(n[0]), After: geom.Wheels(n[1])}
		}
	}
}
