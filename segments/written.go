package segments

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"hubrule/internal/slice"
)

// Canonical returns the one form that all equivalent briefs share: tweaks, pins and keeps in one order, tweaks of no
// strength left out, pins without spaces, plus signs and missing zeros. The digits of a pin stay, since they say how exact it is.
func (b Brief) Canonical() Brief {
	b.Tweaks = slices.DeleteFunc(slices.Clone(b.Tweaks), func(d AppliedTweak) bool { return d.Strength == 0 })
	slices.SortStableFunc(b.Tweaks, func(c, d AppliedTweak) int {
		return cmp.Or(cmp.Compare(c.rank(), d.rank()), cmp.Compare(c.Tweak.Name, d.Tweak.Name))
	})
	b.Pins = b.sortedPins()
	for i, p := range b.Pins {
		b.Pins[i].Text = p.plain()
	}
	b.Keeps = slices.Clone(b.Keeps)
	slices.SortFunc(b.Keeps, func(j, k Keep) int { return cmp.Compare(j.Figure, k.Figure) })
	return b
}

// rank is a tweak's place among those that come with the program; a user's own come after them.
func (d AppliedTweak) rank() int {
	names := TweakNames()
	if i := slices.Index(names, d.Tweak.Name); i >= 0 && !d.isOwn() {
		return i
	}
	return len(names)
}

// plain returns what was written of a pin in the one form that has the same digits.
func (p Pin) plain() string {
	if p.tyre.Name != "" {
		return p.tyre.Name
	}
	text := strings.TrimPrefix(strings.ReplaceAll(p.Text, " ", ""), "+")
	digits, negative := strings.CutPrefix(text, "-")
	if strings.HasPrefix(digits, ".") {
		digits = "0" + digits
	}
	number := strings.TrimRight(digits, "abcdefghijklmnopqrstuvwxyz")
	if negative && strings.Trim(number, "0.") != "" {
		return "-" + digits
	}
	return digits
}

// YAMLLines writes the brief as the keys of one vehicle, in their order, each with its value on one line. Named writes the path of a user's
// own file as YAML; where it is nil, what comes from such files is left out and listed in remarks.
func (b Brief) YAMLLines(named func(path string) string) (lines, remarks []string) {
	switch {
	case b.Source == "" || IsName(b.Source):
		lines = append(lines, "segment: "+b.Profile.Name)
	case named == nil:
		remarks = append(remarks, "a profile of one's own: "+strconv.Quote(b.Profile.Title))
	default:
		lines = append(lines, "segment: "+named(b.Source))
	}
	tweaks, more := b.tweaks(named)
	pins := slice.Map(b.Pins, func(p Pin) string { return p.Figure.String() + ": " + p.Text })
	keeps := slice.Map(b.Keeps, func(k Keep) string { return k.Figure.String() })
	add := func(key string, values []string, open, end string) {
		if len(values) > 0 {
			lines = append(lines, key+": "+open+strings.Join(values, ", ")+end)
		}
	}
	add("tweak", tweaks, "{", "}")
	add("pin", pins, "{", "}")
	add("keep", keeps, "[", "]")
	if b.Title != "" {
		lines = append(lines, "title: "+strconv.Quote(b.Title))
	}
	return lines, append(remarks, more...)
}

// tweaks writes the tweaks for YAMLLines.
func (b Brief) tweaks(named func(path string) string) (tweaks, remarks []string) {
	for _, d := range b.Tweaks {
		strength := strconv.FormatFloat(d.Strength, 'f', -1, 64)
		switch {
		case d.isOwn() && named == nil:
			title := ""
			if d.Tweak.Title != d.Tweak.Name { // without a title a tweak is called as its file is
				title = " " + strconv.Quote(d.Tweak.Title)
			}
			remarks = append(remarks, "a tweak of one's own:"+title+" "+strength)
		case d.isOwn():
			tweaks = append(tweaks, named(d.Source)+": "+strength)
		default:
			tweaks = append(tweaks, d.Tweak.Name+": "+strength)
		}
	}
	return tweaks, remarks
}

// isOwn reports whether the tweak was read from a user's own file.
func (d AppliedTweak) isOwn() bool { return d.Source != "" && !IsName(d.Source) }
