package segments

import (
	"errors"
	"strings"

	"hubrule/segments/strict"
)

// CannotPin says why figure f cannot be pinned or kept on the brief's segment; "" where it can, or where there is no profile to tell.
func (b Brief) CannotPin(f Figure) string {
	switch {
	case f.Info().Unit == AsWord:
		return wordPinned
	case b.Profile != nil && !b.Profile.Form.Has(f):
		return f.String() + ": a " + string(b.Profile.Form) + " has none"
	}
	return ""
}

// Pinnable lists the figures that can be pinned or kept on the brief's segment, or on some segment if the brief has none.
func (b Brief) Pinnable() []string {
	names, _ := figuresWithout(b.CannotPin)
	return names
}

// Refusal returns why a tweak of the brief makes no sense on its segment, nil where all do.
func (b Brief) Refusal() error {
	if words := b.sentences((*Tweak).Refusal); words != nil {
		return errors.New(strings.Join(words, "\n"))
	}
	return nil
}

// Notes returns remarks on the brief's tweaks: those that change nothing, and those that conflict.
func (b Brief) Notes() []string {
	return append(b.sentences((*Tweak).NoEffect), Conflicts(b.Tweaks)...)
}

// sentences collects a sentence for each applied tweak, prefixed with the segment's name.
func (b Brief) sentences(of func(*Tweak, *Profile) string) []string {
	var out []string
	for _, t := range b.Tweaks {
		if words := of(t.Tweak, b.Profile); words != "" && t.Strength != 0 {
			out = append(out, b.Profile.Name+": "+words)
		}
	}
	return out
}

// Summary describes the brief in one line: "sporty 0.8, length 4600mm, height kept"; "" where nothing but a segment is asked for.
func (b Brief) Summary() string {
	var out []string
	for _, d := range b.Tweaks {
		if d.Strength != 0 {
			out = append(out, strings.TrimSuffix(d.Tweak.Name+" "+strict.FormatNumber(d.Strength), " 1"))
		}
	}
	for _, p := range b.sortedPins() {
		out = append(out, p.Figure.String()+" "+p.display())
	}
	for _, k := range b.Keeps {
		out = append(out, k.Figure.String()+" kept")
	}
	return strings.Join(out, ", ")
}
