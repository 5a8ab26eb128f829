package cli

import (
	"fmt"
	"io"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"hubrule/segments"
	"hubrule/segments/strict"
)

func newTweaks() *cobra.Command {
	return &cobra.Command{
		Use:   "tweaks [TWEAK]",
		Short: "List the tweaks, or show one in full: what it moves, why, and where it makes no sense",
		Example: "  hubrule tweaks\n" +
			"  hubrule tweaks sporty",
		Args: atMostOne("tweak"),
		ValidArgsFunction: func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			if len(args) > 0 {
				return nil, cobra.ShellCompDirectiveNoFileComp
			}
			return segments.TweakNames(), cobra.ShellCompDirectiveDefault
		},
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				return listTweaks(c.OutOrStdout())
			}
			t, err := segments.FindTweak(args[0])
			if _, inFile := err.(*strict.Problems); err != nil && !inFile && segments.IsName(args[0]) {
				return usageError{err.Error()}
			} else if err != nil {
				return err
			}
			return showTweak(c.OutOrStdout(), t)
		},
	}
}

func listTweaks(w io.Writer) error {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "tweak\twhat it does")
	for _, name := range segments.TweakNames() {
		tweak, err := segments.FindTweak(name)
		if err != nil {
			return err
		}
		fmt.Fprintf(t, "%s\t%s\n", name, tweak.Line)
	}
	return t.Flush()
}

// showTweak prints every move at strength 1 with its reason, then where the tweak is refused or changes nothing.
func showTweak(w io.Writer, tweak *segments.Tweak) error {
	fmt.Fprintf(w, "%s: %s\n%s\n\n", tweak.Name, tweak.Title, tweak.Line)
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "form\tfigure\tmove at strength 1\twhy")
	for _, m := range tweak.Moves {
		fmt.Fprintf(t, "every\t%s\t%s\t%s\n", m.Figure, moveWords(m), m.Why)
	}
	for _, form := range segments.Forms() {
		for _, m := range tweak.ByForm[form] {
			fmt.Fprintf(t, "%s\t%s\t%s\t%s\n", form, m.Figure, moveWords(m), m.Why)
		}
	}
	if err := t.Flush(); err != nil {
		return err
	}
	var words []string
	for _, name := range segments.Names() {
		p, err := segments.Find(name)
		if err != nil {
			return err
		}
		if s := tweak.Refusal(p); s != "" {
			words = append(words, fmt.Sprintf("refused on %s\t%s", name, s))
		} else if s := tweak.Idle(p); s != "" {
			words = append(words, fmt.Sprintf("no change on %s\t%s", name, s))
		}
	}
	for _, name := range segments.TweakNames() {
		other, err := segments.FindTweak(name)
		if err != nil {
			return err
		}
		for _, s := range segments.Quarrels([]segments.Dose{{Tweak: tweak, Strength: 1}, {Tweak: other, Strength: 1}}) {
			words = append(words, fmt.Sprintf("with %s\t%s", name, s))
		}
	}
	if len(words) > 0 {
		fmt.Fprintln(w)
		for _, s := range words {
			fmt.Fprintln(t, s)
		}
	}
	return t.Flush()
}

// moveWords tells a move: −0.09w, −0.6 half-ranges, half way to 16.
func moveWords(m segments.Move) string {
	unit := ""
	switch m.Figure.About().Unit {
	case segments.InWheels:
		unit = "w"
	case segments.InDegrees:
		unit = "°"
	}
	switch g := m.Toward; {
	case g != nil:
		goal := strict.Digits(g.Value) + unit
		if g.BeforeTail {
			goal += " before the tail"
		}
		share := ""
		if g.Share != 1 {
			share = strict.Digits(g.Share*100) + " % of the way "
		}
		return fmt.Sprintf("%sto %s; backwards %s", share, goal, signed(g.Below, unit))
	case m.HalfRanges && m.Of != m.Figure:
		return signed(m.By, " half-ranges of "+m.Of.String())
	case m.HalfRanges:
		return signed(m.By, " half-ranges")
	}
	return signed(m.By, unit)
}

// signed writes a change with its sign, true minus and all.
func signed(x float64, unit string) string {
	if x < 0 {
		return "\u2212" + strict.Digits(-x) + unit
	}
	return "+" + strict.Digits(x) + unit
}
