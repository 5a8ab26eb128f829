package photo

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"hubrule/internal/slice"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/segments"
	"hubrule/segments/reading"
)

// follows are figures that say again what others say, wherever these stand in a list.
var follows = []segments.Figure{
	segments.Wheelbase, segments.FrontOverhangAxle, segments.RearOverhangAxle, segments.BodySide, segments.Greenhouse, segments.LampOffset,
	segments.PillarFoot, segments.PillarHead,
}

// Follows reports whether a figure only says again what others say.
func Follows(f segments.Figure) bool { return slices.Contains(follows, f) }

// followsFrom are figures that are off where one of others is off: then moving that one is all there is to do.
var followsFrom = map[segments.Figure][]segments.Figure{
	segments.Length:           {segments.FrontOverhang, segments.RearOverhang, segments.WheelsBetween},
	segments.GreenhouseToBody: {segments.Height, segments.Belt, segments.Sill},
}

// moves lists what to move, the longest way first, angles and ratios after lengths; then what cannot be told.
func (s Sheet) moves() (sure, unsure []reading.Difference) {
	for _, d := range s.Differences {
		switch {
		case roundsToZero(number(d.Figure, d.Move)) || Follows(d.Figure):
		case d.CannotTell:
			unsure = append(unsure, d)
		default:
			sure = append(sure, d)
		}
	}
	off := func(f segments.Figure) bool {
		return slices.ContainsFunc(sure, func(d reading.Difference) bool { return d.Figure == f })
	}
	for f, causes := range followsFrom {
		if slices.ContainsFunc(causes, off) {
			drop := func(d reading.Difference) bool { return d.Figure == f }
			sure, unsure = slices.DeleteFunc(sure, drop), slices.DeleteFunc(unsure, drop)
		}
	}
	kind := func(d reading.Difference) int {
		switch d.Figure.Info().Unit {
		case segments.InDegrees:
			return 1
		case segments.AsRatio:
			return 2
		}
		return 0
	}
	slices.SortStableFunc(sure, func(a, b reading.Difference) int {
		return cmp.Or(cmp.Compare(kind(a), kind(b)), cmp.Compare(math.Abs(b.Move), math.Abs(a.Move)))
	})
	return sure, unsure
}

// roundsToZero reports whether a number says nothing but zero.
func roundsToZero(number string) bool { return strings.Trim(number, "−0.°") == "" }

// wording is what a difference says, a ratio by that name.
func wording(d reading.Difference) string {
	if d.Figure.Info().Unit == segments.AsRatio {
		return "ratio " + d.Words()
	}
	return d.Words()
}

// onPaper says how far a figure has to move in millimetres, with a comma before; on what, the heading says once.
func (s Sheet) onPaper(d reading.Difference) string {
	return strings.TrimSuffix(s.Reading.OnPaper(d, ", "), " on your sheet")
}

// ranged reports whether the sheet is held against ranges; else it is held against single values.
func (s Sheet) ranged() bool {
	return slices.ContainsFunc(s.Differences, func(d reading.Difference) bool { return d.Range.Lo < d.Range.Hi })
}

// differences lists beside the picture what to move.
func (d *drawing) differences() {
	heading := "off what was asked"
	if d.ranged() {
		heading = "beyond the range of " + d.Name
	}
	lines := [][]draft.Word{{draft.Heading(heading, draft.Small)}}
	if d.picture.WheelOnSheet() > 0 {
		lines[0] = append(lines[0], draft.Note(", mm on your sheet"))
	}
	sure, unsure := d.moves()
	for _, m := range sure {
		accent := draft.Value(wording(m))
		accent.Role = draft.Accent
		line := []draft.Word{accent}
		if on := d.onPaper(m); on != "" {
			line = append(line, draft.Note(on))
		}
		lines = append(lines, line)
	}
	if len(sure) == 0 {
		lines = append(lines, []draft.Word{draft.Note("all that was read lies as it should")})
	}
	for _, m := range unsure {
		lines = append(lines, []draft.Word{draft.Note(wording(m) + ": cannot tell")})
	}
	top := d.box.Min.Y
	l := draft.NewLabel(lines...)
	for len(lines) > 1 && top+l.Height > d.Space.Max.Y {
		lines = lines[:len(lines)-1]
		l = draft.NewLabel(lines...)
	}
	d.Write("labels", l.TopAt(d.box.Max.X+3, top, render.Start))
}

// onPicture are the figures that stand at the picture where it is held against nothing.
var onPicture = []segments.Figure{
	segments.WheelsBetween, segments.FrontOverhang, segments.RearOverhang, segments.Length, segments.Wheelbase, segments.Height,
	segments.Belt, segments.Sill, segments.Clearance, segments.PillarRake, segments.PillarAim, segments.GlassEnd,
}

// table returns the heads and the rows of the table under the picture: the figures that stand nowhere else, or all, each with what is
// wanted.
func (s Sheet) table() (head []draft.Word, rows [][]draft.Word) {
	if s.Against != nil {
		return s.tableAgainst()
	}
	heads, millimetres := []string{"also read", "wheels"}, false
	for f := range segments.FigureCount {
		v := s.Reading.Figures[f]
		unit := f.Info().Unit
		if v.State != reading.Read || unit == segments.InMM || unit == segments.AsWord || slices.Contains(onPicture, f) {
			continue
		}
		mm := s.millimetres(f, v.Value)
		millimetres = millimetres || mm != ""
		rows = append(rows, []draft.Word{draft.Name(figureName(f)), draft.Value(amount(f, v)), draft.Note(mm)})
	}
	if heads = append(heads, "mm"); !millimetres {
		heads[2] = ""
	}
	return notes(heads...), rows
}

// tableAgainst lists every figure that is held against something.
func (s Sheet) tableAgainst() (head []draft.Word, rows [][]draft.Word) {
	wanted := "asked"
	if s.ranged() {
		wanted = "range of " + s.Name
	}
	sure, _ := s.moves()
	for _, d := range s.Differences {
		want := number(d.Figure, d.Range.Lo)
		if d.Range.Hi > d.Range.Lo {
			want += " to " + number(d.Figure, d.Range.Hi)
		}
		read := draft.Value(amount(d.Figure, d.Read))
		if slices.Contains(sure, d) {
			read.Role = draft.Accent
		}
		rows = append(rows, []draft.Word{draft.Name(figureName(d.Figure)), read, draft.Note(want)})
	}
	return notes("in wheels", "read", wanted), rows
}

// notes makes words of heads.
func notes(texts ...string) (out []draft.Word) {
	for _, text := range texts {
		out = append(out, draft.Note(text))
	}
	return out
}

// figureName is what people call a figure.
func figureName(f segments.Figure) string {
	switch f {
	case segments.Height:
		return "roof"
	case segments.GreenhouseToBody:
		return "ratio greenhouse to body"
	}
	return strings.ReplaceAll(f.String(), "-", " ")
}

// legend explains the lines of the picture in a sentence.
func (d *drawing) legend() string {
	_, photograph := d.picture.Pose()
	switch {
	case d.Against == nil && photograph:
		return "nose and tail lie deeper in the picture than the near wheels: slanting lines on the ground carry them out to the brackets, " +
			"which stand in the plane of these wheels"
	case d.Against == nil:
		return "millimetres are those on the sheet of the sketch"
	}
	red := "what was asked"
	if d.ranged() {
		red = "a typical " + d.Name
	}
	if photograph {
		red += ", as this camera would see it"
	}
	text := "in red: " + red + "; in black: ground and tyres as read"
	if sure, _ := d.moves(); len(sure) > 0 {
		wanted := "where it is wanted"
		if d.ranged() {
			wanted = "the near end of its range"
		}
		text += "; arrows: from where a line was read to " + wanted
	}
	return text
}

// Moves lists what to move and what cannot be told, as the sheet does.
func (s Sheet) Moves() (sure, unsure []string) {
	known, unknown := s.moves()
	return slice.Map(known, func(d reading.Difference) string { return wording(d) + s.onPaper(d) }), slice.Map(unknown, wording)
}
