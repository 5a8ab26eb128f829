package cli

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"hubrule/layout"
	"hubrule/segments"
)

// registerTogether enters the flags of the sheets that show several vehicles on a page.
func (s *settingFlags) registerTogether(c *cobra.Command) {
	c.Flags().StringArrayVar(&s.against, "against", nil, "`SEGMENT[+TWEAK=STRENGTH,…]`: what an overlay lays over each segment, like suv+sporty=0.5,longer; up to three times (without it: over the first segment the others)")
	c.Flags().IntVar(&s.count, "count", 0, "how many thumbnails, `N`: 2 to 24, the segments in turn (one for each segment, 12 of a segment alone)")
	must(c.RegisterFlagCompletionFunc("against", completeAgainst))
	completeFlag(c, "count", "6", "12", "24")
}

// completeAgainst offers segments, and after a + the tweaks.
func completeAgainst(_ *cobra.Command, _ []string, typed string) ([]string, cobra.ShellCompDirective) {
	end := strings.LastIndexAny(typed, "+,")
	if !strings.Contains(typed, "+") {
		return segments.Names(), cobra.ShellCompDirectiveNoSpace | cobra.ShellCompDirectiveNoFileComp
	}
	var out []string
	for _, name := range segments.TweakNames() {
		out = append(out, typed[:end+1]+name)
	}
	return out, cobra.ShellCompDirectiveNoSpace | cobra.ShellCompDirectiveNoFileComp
}

// compared solves what overlays compare the segments with. All that is wrong is told, each with the words that it was found in.
func (s *settingFlags) compared() ([]layout.Plan, error) {
	var out []layout.Plan
	var wrong []string
	var inFiles []error
	for _, said := range s.against {
		plan, err := planAgainst(said)
		var usage usageError
		switch {
		case errors.As(err, &usage):
			wrong = append(wrong, usage.text)
		case err != nil:
			inFiles = append(inFiles, err)
		}
		out = append(out, plan)
	}
	switch {
	case wrong != nil:
		return nil, usageError{strings.Join(wrong, "\n")}
	case inFiles != nil:
		return nil, errors.Join(inFiles...)
	}
	return out, nil
}

// planAgainst solves one vehicle of --against.
func planAgainst(said string) (layout.Plan, error) {
	flag := "--against " + said
	b, err := briefAgainst(said, flag)
	if err != nil {
		return layout.Plan{}, err
	}
	for i := range b.Pins { // a clash then tells where its pins were said
		b.Pins[i].Origin = segments.Origin{Place: flag}
	}
	for i := range b.Keeps {
		b.Keeps[i].Origin = segments.Origin{Place: flag}
	}
	plan, err := solve(b)
	if err != nil {
		return plan, fmt.Errorf("%s: %w", flag, err)
	}
	return plan, nil
}

// briefAgainst reads one vehicle of --against.
func briefAgainst(said, flag string) (segments.Brief, error) {
	against := segments.VehicleSpec(said)
	if against.IsTable() {
		return against.ParseTable(flag)
	}
	segment, tweaks, bent := against.Split()
	switch {
	case segment == "":
		return segments.Brief{}, usagef("%s: want SEGMENT or SEGMENT+TWEAK=STRENGTH,…, like suv+sporty=0.5", flag)
	case bent && tweaks == nil:
		return segments.Brief{}, usagef("%s: nothing after the +; want SEGMENT+TWEAK=STRENGTH,…, like suv+sporty=0.5", flag)
	}
	base, err := new(planFlags).one(segment)
	var usage usageError
	if errors.As(err, &usage) {
		return base, usagef("%s: %s", flag, usage.text)
	} else if err != nil {
		return base, err
	}
	bend := planFlags{tweaks: tweaks}
	b, err := bend.brief(base)
	if errors.As(err, &usage) {
		// Each line begins with the flag that it would have been said by.
		return b, usageError{flag + ": " + strings.NewReplacer("\n--tweak ", "\n"+flag+": ", "--tweak ", "").Replace(usage.text)}
	}
	return b, err
}
