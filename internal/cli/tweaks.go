package cli

import (
	"fmt"
	"io"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"hubrule/internal/files"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// ownTweak is the file that help shows.
const ownTweak = `  kind: tweak
  title: Squat
  line: less glass over the same belt, nearer the road, a flatter tail
  moves:                   # in every form
    greenhouse: {by: -0.15w, why: less glass}             # w: wheels
    sill:       {by: -0.5h, why: nearer the road}         # h: half-ranges of the figure
    body-side:  {by: 0.5h, of: sill, why: the belt stays}
  by-form:                 # besides, in that form
    two-box: {tail-rake: {toward: 45, share: 0.5, why: half way to a flat tail}}
  refuse: {bed: a bed has no tail to flatten}
  quarrels: {roomy: squat and roomy cancel each other}`

func newTweaks(*files.Set) *cobra.Command {
	return &cobra.Command{
		Use:   "tweaks [NAME|PATH]",
		Short: "List the tweaks, or show one in full: what it moves, why, and where it makes no sense",
		Long: "List the tweaks, or show one in full: what it moves, why, and where it makes no sense.\n\n" +
			"A tweak of your own is a file; every move has its amount at strength 1, and a reason:\n\n" +
			ownTweak,
		Example: "  hubrule tweaks\n" +
			"  hubrule tweaks sporty\n" +
			"  hubrule tweaks ./squat.yaml",
		Args:              argCount(0, 1, "one tweak at a time; found %d"),
		ValidArgsFunction: completeOne(segments.TweakNames, cobra.ShellCompDirectiveDefault),
		RunE:              listOrShow(listTweaks, segments.FindTweak, showTweak),
	}
}

func listTweaks(w io.Writer) {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "tweak\twhat it does")
	for _, tweak := range segments.Tweaks() {
		fmt.Fprintf(t, "%s\t%s\n", tweak.Name, tweak.Summary)
	}
	t.Flush()
}

// showTweak prints every move at strength 1 with its reason, then where the tweak is refused or changes nothing.
func showTweak(w io.Writer, tweak *segments.Tweak) {
	fmt.Fprintf(w, "%s: %s\n", tweak.Name, tweak.Title)
	if tweak.Summary != "" {
		fmt.Fprintln(w, tweak.Summary)
	}
	fmt.Fprintln(w)
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
	t.Flush()
	var words []string
	for _, p := range segments.All() {
		if s := tweak.Refusal(p); s != "" {
			words = append(words, fmt.Sprintf("refused on %s\t%s", p.Name, s))
		} else if s := tweak.NoEffect(p); s != "" {
			words = append(words, fmt.Sprintf("no change on %s\t%s", p.Name, s))
		}
	}
	for _, other := range segments.Tweaks() {
		for _, s := range segments.Conflicts([]segments.AppliedTweak{{Tweak: tweak, Strength: 1}, {Tweak: other, Strength: 1}}) {
			words = append(words, fmt.Sprintf("with %s\t%s", other.Name, s))
		}
	}
	if len(words) > 0 {
		fmt.Fprintln(w)
		for _, s := range words {
			fmt.Fprintln(t, s)
		}
	}
	t.Flush()
}

// moveWords writes a move: −0.09w, −0.6 half-ranges, 50 % of the way to 16°.
func moveWords(m segments.Move) string {
	unit := ""
	switch m.Figure.Info().Unit {
	case segments.InWheels:
		unit = "w"
	case segments.InDegrees:
		unit = "°"
	}
	if m.HalfRanges {
		unit = " half-ranges"
		if m.By == 1 || m.By == -1 {
			unit = " half-range"
		}
	}
	switch {
	case m.Toward != nil:
		return goalWords(*m.Toward, unit)
	case m.HalfRanges && m.Of != m.Figure:
		unit += " of " + m.Of.String()
	}
	words := signed(m.By, unit)
	switch {
	case m.Below != nil && *m.Below == 0:
		words += "; backwards nothing"
	case m.Below != nil:
		words += "; backwards " + signed(*m.Below, unit)
	}
	return words
}

// goalWords writes where a move goes, where it stops and what it does backwards.
func goalWords(g segments.Goal, unit string) string {
	words := "to " + strict.FormatNumber(g.Value) + unit
	if g.Share != 1 {
		words = strict.FormatNumber(g.Share*100) + " % of the way " + words
	}
	if g.BeforeTail {
		words += " before the tail"
	}
	if g.Until != 1 {
		words += ", no further from strength " + strict.FormatNumber(g.Until)
	}
	if g.Below != 0 {
		words += "; backwards " + signed(g.Below, unit)
	}
	return words
}

// signed writes a change with its sign, true minus and all.
func signed(x float64, unit string) string {
	if x < 0 {
		return "\u2212" + strict.FormatNumber(-x) + unit
	}
	return "+" + strict.FormatNumber(x) + unit
}
