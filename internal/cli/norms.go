package cli

import (
	"bytes"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"hubrule/internal/draw"
	"hubrule/internal/files"
	"hubrule/internal/job"
	"hubrule/internal/report"
	"hubrule/internal/slice"
	"hubrule/segments"
	"hubrule/segments/reading"
	"hubrule/segments/strict"
)

// normsFlags are the flags of norms.
type normsFlags struct {
	readFlags
	plain   bool
	without []string
}

func newNorms(set *files.Set) *cobra.Command {
	var f normsFlags
	c := &cobra.Command{
		Use:   "norms FILE...",
		Short: "Gather what many readings share into a profile of your own",
		Long: "norms takes marks files, data sheets (.csv) and folders of them and gives each figure its median and a range.\n" +
			"With few readings the range is widened by how little they tell, or leans on a segment that --like names.\n" +
			"A reading that lies far from all others is named and counts all the same; --without leaves it out.\n\n" + caution,
		Example: "  hubrule norms marks/ --like suv -o mine.yaml -o norms.pdf\n" +
			"  hubrule norms sheet.csv --plain\n" +
			"  hubrule draw mine.yaml",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usagef("norms wants marks files, data sheets or folders of them")
			}
			return nil
		},
		ValidArgsFunction: func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return nil, cobra.ShellCompDirectiveDefault
		},
		RunE: func(c *cobra.Command, args []string) error { return f.run(c, set, args) },
	}
	c.Flags().StringVar(&f.like, "like", "", "`SEGMENT` to lean on where readings are few, and for what they do not have")
	c.Flags().BoolVar(&f.plain, "plain", false, "take the 10th to 90th percentile as the range, not widened")
	c.Flags().StringArrayVar(&f.without, "without", nil, "`NAME` of a reading to leave out; may be given several times")
	c.Flags().StringArrayVarP(&f.out, "output", "o", nil, "write this `FILE`: .yaml is the profile, "+endings()+
		" the spread of all readings; may be given several times")
	c.Flags().BoolVar(&f.force, "force", false, "replace files that are there already")
	completeFlag(c, "like", segments.Names()...)
	return c
}

func (f *normsFlags) run(c *cobra.Command, set *files.Set, args []string) error {
	all, err := f.load(args, c.InOrStdin())
	if err != nil {
		return err
	}
	names := slice.Map(all, func(r reading.Reading) string { return r.Name })
	for _, name := range f.without {
		if !slices.ContainsFunc(names, func(known string) bool { return strings.EqualFold(known, name) }) {
			return usagef("--without: %s", strict.Unknown("reading", name, names))
		}
	}
	norms, err := reading.Gather(all, reading.NormOptions{Name: f.name(), Like: f.segment, Plain: f.plain, Without: f.without})
	if err != nil {
		return err
	}
	outputs, err := f.files(norms)
	if err != nil {
		return err
	}
	var text bytes.Buffer
	normsTable(&text, norms)
	return f.finish(c, set, text.Bytes(), outputs, nil)
}

// name is what the profile is called: as its file, if one is written.
func (f *normsFlags) name() string {
	i := slices.IndexFunc(f.out, isProfile)
	if i < 0 {
		return "norms"
	}
	return segments.Stem(f.out[i])
}

// isProfile reports whether a file of -o is a profile by its ending.
func isProfile(path string) bool {
	return slices.Contains([]string{".yaml", ".yml"}, strings.ToLower(filepath.Ext(path)))
}

// files makes every file of -o in memory.
func (f *normsFlags) files(n *reading.Norms) (out []output, err error) {
	for i, path := range f.out {
		t, known := targetOf(path)
		switch {
		case slices.Contains(f.out[:i], path):
			return nil, usagef("-o: %s is named twice", path)
		case isProfile(path):
			text, err := draw.NormsProfile(n)
			if err != nil {
				return nil, err
			}
			out = append(out, output{path: path, data: []byte(text)})
		case known:
			j := job.Default()
			doc, err := draw.NormsDocument(n, j.Setting)
			if err != nil {
				return nil, err
			}
			drawn, err := renderAll(doc, []target{t}, j)
			if err != nil {
				return nil, err
			}
			out = append(out, drawn...)
		default:
			return nil, usagef("-o %s: unknown kind of file; want a name that ends in .yaml for a profile, or in %s", path, endings())
		}
	}
	return out, nil
}

// normsTable prints norms for people.
func normsTable(w io.Writer, n *reading.Norms) {
	fmt.Fprintf(w, "norms of %s, on the segment %s\n\n", counted(len(n.Readings), "reading"), n.Base.Name)
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(t, "figure\tn\tp10\tmedian\tp90\tfrom\tto\t")
	for _, f := range n.Figures {
		u := f.Figure.Info().Unit
		fmt.Fprintf(t, "%s\t%d\t%s\t%s\t%s\t%s\t%s\t\n", f.Figure, f.N, report.Value(f.P10, u), report.Value(f.Median, u), report.Value(f.P90, u),
			report.Value(f.Range.Lo, u), report.Value(f.Range.Hi, u))
	}
	t.Flush()
	fmt.Fprintln(w, "p10, p90: a tenth of the readings lies below, above; from, to: the range of the profile")
	for _, text := range n.Messages {
		fmt.Fprintln(w, text)
	}
	fmt.Fprintf(w, "\n%s\n", caution)
}
