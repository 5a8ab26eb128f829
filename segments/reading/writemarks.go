package reading

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"hubrule/internal/slice"
	"hubrule/segments/strict"
)

// markKeys are the keys of marks files, in the order of their documentation.
var markKeys = []string{
	"kind", "picture", "size", "facing", "student", "tyre", "rear-tyre", "wheelbase", "like", "half-width", "track", "round", "focal",
	"distance", "eye-height", "cropped", "stands-on", "pm", "on-sheet", "hidden", "marks",
}

// YAML writes the marks as a marks file: keys and marks in the order of their tables, coordinates to four decimals, all else as it was
// given. The size, and a focal length that a picture's header gave, stand in it too, so that it is read alike without the picture.
func (f *File) YAML() string {
	var b strings.Builder
	top := f.doc.Top().Table("key", markKeys)
	for _, key := range markKeys {
		v, given := top.Get(key)
		switch {
		case key == "kind":
			b.WriteString("kind: marks\n")
		case key == "size":
			fmt.Fprintf(&b, "size: [%s, %s]\n", number(f.Marks.Width), number(f.Marks.Height))
		case key == "on-sheet" && given:
			f.writeSheet(&b, v)
		case key == "hidden" && given:
			fmt.Fprintf(&b, "hidden: [%s]\n", strings.Join(slice.Map(f.Marks.Hidden, Name.String), ", "))
		case key == "marks":
			f.writePoints(&b)
		case given:
			fmt.Fprintf(&b, "%s: %s\n", key, inYAML(key, v))
		case key == "focal" && f.Marks.Focal > 0:
			fmt.Fprintf(&b, "focal: %s\n", strict.FormatNumber(f.Marks.Focal))
		}
	}
	return b.String()
}

// plainText is what YAML takes for itself without quotes: a number, a length, a name, a tyre.
var plainText = strict.Pattern(`^[A-Za-z0-9.-][A-Za-z0-9./_+-]*$`)

// inYAML writes the value of a key; a table of values in one line.
func inYAML(key string, v strict.Value) string {
	if v.IsTable() {
		fields := slice.Map(v.AnyTable().Fields, func(f strict.Field) string { return f.Name + ": " + inYAML(f.Name, f.Value) })
		return "{" + strings.Join(fields, ", ") + "}"
	}
	text, _ := v.Scalar()
	if text = strings.TrimSpace(text); key == "picture" || key == "student" || !plainText().MatchString(text) {
		return strconv.Quote(text)
	}
	return text
}

func (f *File) writeSheet(b *strings.Builder, v strict.Value) {
	s := f.Marks.Sheet
	var fields []string
	for _, field := range v.AnyTable().Fields {
		value := ""
		switch i := slices.Index([]string{"left", "top", "right", "bottom"}, field.Name); {
		case i >= 0:
			value = pointText(s.Ends[i])
		case field.Name == "bar":
			value = "[" + strings.Join(slice.Map(s.Bar, pointText), ", ") + "]"
		default:
			value = inYAML(field.Name, field.Value)
		}
		fields = append(fields, field.Name+": "+value)
	}
	fmt.Fprintf(b, "on-sheet: {%s}\n", strings.Join(fields, ", "))
}

// writePoints writes the table of marks.
func (f *File) writePoints(b *strings.Builder) {
	if !slices.ContainsFunc(f.Marks.Points[:], func(marks []Mark) bool { return marks != nil }) {
		b.WriteString("marks: {}\n")
		return
	}
	b.WriteString("marks:\n")
	for _, n := range Names() {
		texts := slice.Map(f.Marks.Points[n], markText)
		switch {
		case len(texts) == 0:
		case n.Info().Most == 1:
			fmt.Fprintf(b, "  %s: %s\n", n, texts[0])
		default:
			fmt.Fprintf(b, "  %s: [%s]\n", n, strings.Join(texts, ", "))
		}
	}
}

// markText writes one mark: its place, or a table with what else it has.
func markText(m Mark) string {
	if m.PM == 0 && m.Inboard == nil {
		return pointText(m.At)
	}
	text := "{at: " + pointText(m.At)
	if m.PM > 0 {
		text += ", pm: " + number(m.PM)
	}
	if m.Inboard != nil {
		text += ", inboard: " + strict.FormatNumber(float64(*m.Inboard)) + "w"
	}
	return text + "}"
}

func pointText(p Point) string {
	exact := func(x Pixel) string { return strict.FormatNumber(rounded(float64(x))) }
	return "[" + exact(p.X) + ", " + exact(p.Y) + "]"
}
