package cli

import (
	"errors"
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

// planAgainst solves one SEGMENT[+TWEAK=STRENGTH,…].
func planAgainst(said string) (layout.Plan, error) {
	flag := "--against " + said
	segment, tweaks, more := strings.Cut(said, "+")
	if segment == "" {
		return layout.Plan{}, usagef("%s: want SEGMENT or SEGMENT+TWEAK=STRENGTH,…, like suv+sporty=0.5", flag)
	}
	files, err := loadBriefs([]string{segment})
	var usage usageError
	switch {
	case errors.As(err, &usage):
		return layout.Plan{}, usagef("%s: %s", flag, usage.text)
	case err != nil:
		return layout.Plan{}, err
	case files[0].Err() != nil:
		return layout.Plan{}, files[0].Err()
	}
	var bend planFlags
	if more && tweaks == "" {
		return layout.Plan{}, usagef("%s: nothing after the +; want SEGMENT+TWEAK=STRENGTH,…, like suv+sporty=0.5", flag)
	}
	if more {
		bend.tweaks = strings.Split(tweaks, ",")
	}
	b, err := bend.brief(files[0].Brief)
	if errors.As(err, &usage) {
		// Each line begins with the flag that it would have been said by.
		return layout.Plan{}, usageError{flag + ": " + strings.NewReplacer("\n--tweak ", "\n"+flag+": ", "--tweak ", "").Replace(usage.text)}
	}
	if err != nil {
		return layout.Plan{}, err
	}
	return solve(b)
}
