package cli

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"hubrule/layout"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// planFlags are the flags that bend a segment's plan, as written. Every command that makes a plan has them.
type planFlags struct{ tweaks, pins, keeps []string }

func (f *planFlags) register(c *cobra.Command) {
	c.Flags().StringArrayVar(&f.tweaks, "tweak", nil, "`NAME[=STRENGTH]`: a tweak (see hubrule tweaks) or the path of one, -2 to 2, 1 if none is said; may be given several times")
	c.Flags().StringArrayVar(&f.pins, "pin", nil, "`FIGURE=VALUE`: fix a figure, like height=2.2w, length=4600mm or pillar-rake=30; may be given several times")
	c.Flags().StringArrayVar(&f.keeps, "keep", nil, "`FIGURE`: leave a figure as it would be without the tweaks; may be given several times")
	must(c.RegisterFlagCompletionFunc("tweak", completeTweaks))
	must(c.RegisterFlagCompletionFunc("pin", completeFigures("=")))
	must(c.RegisterFlagCompletionFunc("keep", completeFigures("")))
}

func completeTweaks(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return segments.TweakNames(), cobra.ShellCompDirectiveNoSpace
}

// completeFigures offers all figures that can be pinned, followed by after.
func completeFigures(after string) cobra.CompletionFunc {
	return func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		var out []string
		for _, name := range figureNames() {
			out = append(out, name+after)
		}
		directive := cobra.ShellCompDirectiveNoFileComp
		if after != "" {
			directive |= cobra.ShellCompDirectiveNoSpace
		}
		return out, directive
	}
}

// figureNames lists the figures that can be pinned on some segment.
func figureNames() []string {
	var out []string
	for f := range segments.FigureCount {
		if f.Info().Unit != segments.AsWord {
			out = append(out, f.String())
		}
	}
	return out
}

// brief puts what the flags say over base. A flag overrides a file; within the flags a figure stands once.
// The error tells everything that is wrong with them.
func (f *planFlags) brief(base segments.Brief) (segments.Brief, error) {
	b := segments.Brief{
		Profile: base.Profile, Source: base.Source, Tweaks: slices.Clone(base.Tweaks),
		Pins: slices.Clone(base.Pins), Keeps: slices.Clone(base.Keeps),
	}
	r := planReader{brief: b, said: map[segments.Figure]string{}}
	r.tweaks(f.tweaks)
	for _, text := range f.pins {
		r.pin(text)
	}
	for _, text := range f.keeps {
		r.keep(text)
	}
	r.bounds()
	if len(r.inFiles) > 0 {
		return r.brief, errors.Join(r.inFiles...)
	}
	if len(r.wrong) > 0 {
		return r.brief, usageError{strings.Join(r.wrong, "\n")}
	}
	return r.brief, nil
}

// one reads a segment or a brief of one vehicle and lays the flags over it.
func (f *planFlags) one(nameOrPath string) (segments.Brief, error) {
	files, err := loadBriefs([]string{nameOrPath})
	if err != nil {
		return segments.Brief{}, err
	}
	if err := checkSettings(files); err != nil {
		return segments.Brief{}, err
	}
	if n := len(files[0].Briefs); n > 1 {
		return segments.Brief{}, fmt.Errorf("%s asks for %d vehicles; want a brief of one", nameOrPath, n)
	}
	return f.brief(files[0].Briefs[0])
}

// planReader reads the plan flags one by one and gathers what is wrong.
type planReader struct {
	brief   segments.Brief
	said    map[segments.Figure]string // flag by which a figure was pinned or kept
	wrong   []string
	inFiles []error
}

func (r *planReader) problem(format string, args ...any) {
	r.wrong = append(r.wrong, fmt.Sprintf(format, args...))
}

func (r *planReader) tweaks(given []string) {
	var names []string
	for _, text := range given {
		name, strength, err := segments.ParseAppliedTweak(text)
		if err != nil {
			r.problem("--tweak %s: %v", text, err)
			continue
		}
		t, err := segments.FindTweak(name)
		var inside *strict.Problems
		switch {
		case errors.As(err, &inside) || err != nil && !segments.IsName(name):
			r.inFiles = append(r.inFiles, err)
			continue
		case err != nil:
			r.problem("--tweak %s: %v", text, err)
			continue
		case slices.Contains(names, tweakKey(name)):
			r.problem("--tweak %s: %s is named twice", text, name)
			continue
		}
		names = append(names, tweakKey(name))
		r.brief.Tweaks = slices.DeleteFunc(r.brief.Tweaks, func(d segments.AppliedTweak) bool { return tweakKey(d.Source) == tweakKey(name) })
		r.brief.Tweaks = append(r.brief.Tweaks, segments.AppliedTweak{Tweak: t, Strength: strength, Source: name})
	}
}

// tweakKey is the same for all ways to write one tweak's name or path.
func tweakKey(nameOrPath string) string {
	if whole, err := filepath.Abs(nameOrPath); err == nil && !segments.IsName(nameOrPath) {
		return whole
	}
	return nameOrPath
}

// figure finds the figure that a flag names and that this segment can be told.
func (r *planReader) figure(flag, name string) (segments.Figure, bool) {
	f, ok := segments.Lookup(name)
	switch {
	case !ok:
		r.problem("%s: %s", flag, strict.Unknown("figure", name, figureNames()))
	case r.brief.CannotPin(f) != "":
		r.problem("%s: %s", flag, r.brief.CannotPin(f))
		return f, false
	case r.said[f] != "":
		r.problem("%s: said already by %s; want one of both", flag, r.said[f])
		return f, false
	default:
		r.said[f] = flag
	}
	// A flag overrides what a file says of the same figure.
	r.brief.Pins = slices.DeleteFunc(r.brief.Pins, func(p segments.Pin) bool { return p.Figure == f && ok })
	r.brief.Keeps = slices.DeleteFunc(r.brief.Keeps, func(k segments.Keep) bool { return k.Figure == f && ok })
	return f, ok
}

func (r *planReader) pin(text string) {
	flag := "--pin " + text
	name, value, ok := strings.Cut(text, "=")
	if !ok {
		r.problem("%s: want FIGURE=VALUE, like height=2.2w", flag)
		return
	}
	f, ok := r.figure(flag, name)
	if !ok {
		return
	}
	p, err := segments.ParsePin(f, value)
	if err != nil {
		r.problem("%s: %v", flag, err)
		return
	}
	p.Origin = segments.Origin{Place: flag}
	r.brief.Pins = append(r.brief.Pins, p)
}

func (r *planReader) keep(name string) {
	flag := "--keep " + name
	if f, ok := r.figure(flag, name); ok {
		r.brief.Keeps = append(r.brief.Keeps, segments.Keep{Figure: f, Origin: segments.Origin{Place: flag}})
	}
}

// bounds refuses lengths that make no sense on this brief's wheel.
func (r *planReader) bounds() {
	fitted := r.brief.FittedProfile()
	wheel := fitted.Wheel.Diameter
	if q := fitted.RearRatio(); q < .5 || q > 2 {
		r.problem("the rear wheel, %s, beside the front wheel, %s; want half to twice as large", fitted.RearWheel, fitted.Wheel)
	}
	for _, p := range r.brief.Pins {
		if err := p.CheckBounds(wheel); err != nil && p.Origin.InFile {
			r.inFiles = append(r.inFiles, fmt.Errorf("%s: %v", p.Origin.Place, err)) // a flag gave it another wheel
		} else if err != nil {
			r.problem("%s: %v", p.Origin.Place, err)
		}
	}
}

// tellNotes prints what somebody should know of the brief's tweaks.
func tellNotes(w io.Writer, b segments.Brief) {
	for _, n := range b.Notes() {
		fmt.Fprintf(w, "hubrule: note: %s\n", n)
	}
}

// told turns a clash into words, every set with its pins, what stands in the way and what would work.
func told(c *layout.Clash) error {
	if len(c.Sets) == 0 {
		return fmt.Errorf("%s: %w", c.Brief.Profile.Name, c)
	}
	var b strings.Builder
	for k, set := range c.Sets {
		if k > 0 {
			b.WriteByte('\n')
		}
		fmt.Fprintf(&b, "%s: %s", c.Brief.Profile.Name, toldSet(set))
	}
	return errors.New(b.String())
}

func toldSet(set layout.ClashSet) string {
	var b strings.Builder
	if len(set.Pins) == 1 {
		b.WriteString("this cannot be met:")
	} else {
		b.WriteString("these cannot hold together:")
	}
	rows := [][3]string{}
	var wide [2]int
	for _, p := range set.Pins {
		row := [3]string{p.Figure.String() + " " + toldValue(p), p.Origin.Place, toldNearest(p)}
		for i := range wide {
			wide[i] = max(wide[i], len([]rune(row[i])))
		}
		rows = append(rows, row)
	}
	for _, r := range rows {
		fmt.Fprintf(&b, "\n  %-*s  %-*s  %s", wide[0], r[0], wide[1], r[1], r[2])
	}
	if len(set.Limits) == 0 && len(set.Pins) > 1 {
		b.WriteString("\n  against: each follows from the others")
	}
	for _, limit := range set.Limits {
		fmt.Fprintf(&b, "\n  against: %s", limit)
	}
	return b.String()
}

func toldValue(p layout.ClashPin) string {
	if p.Written == "" {
		return shown(p.Value, p.Figure.Info().Unit)
	}
	return p.Written
}

func toldNearest(p layout.ClashPin) string {
	switch {
	case p.AlreadyMet:
		return "met before the A-pillar was looked at"
	case p.Suggestion == "":
		return "no value of " + p.Figure.String() + " alone helps"
	case p.Kept:
		return p.Suggestion + " would work; pin it instead"
	}
	return p.Suggestion + " would work"
}
