package cli

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"

	"github.com/spf13/cobra"

	"hubrule/internal/draw"
	"hubrule/internal/files"
	"hubrule/internal/slice"
	"hubrule/segments"
	"hubrule/segments/reading"
)

// readFlags are the flags of read.
type readFlags struct {
	format, like, against string
	out                   []string
	force, fresh, show    bool

	segment *segments.Profile                  // of --like; nil where it is not given
	inputs  []string                           // the files that are read, which no output may replace
	files   map[*reading.Picture]*reading.File // of each picture that was read
}

func newRead(set *files.Set) *cobra.Command {
	var f readFlags
	c := &cobra.Command{
		Use:   "read FILE...",
		Short: "Read the figures of a vehicle off marks on a picture, or off a data sheet",
		Long: "read takes what a person marked on a photograph of a vehicle's side, or on a sketch, and prints every figure\n" +
			"with how far off it may be (±, in 95 of 100 readings), what most of that comes from, and what the vehicle reads\n" +
			"as. FILE is a marks file (kind: marks), a data sheet (.csv, one vehicle a row) or a folder of them; - is a marks\n" +
			"file from standard input. --new writes a marks file to fill in beside a picture, --show draws the marks over it.\n\n" + caution,
		Example: "  hubrule read --new side.jpg\n" +
			"  hubrule read --show side.yaml -o check.png\n" +
			"  hubrule read side.yaml\n" +
			"  hubrule read side.yaml --against suv -o photo.pdf\n" +
			"  hubrule read side.yaml -o vehicle.yaml\n" +
			"  hubrule read sketch.yaml --against brief.yaml -o back.pdf\n" +
			"  hubrule read marks/ sheet.csv --format csv > all.csv",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usagef("read wants at least one marks file, data sheet or folder; hubrule read --new PICTURE starts one")
			}
			return nil
		},
		ValidArgsFunction: func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return nil, cobra.ShellCompDirectiveDefault
		},
		RunE: func(c *cobra.Command, args []string) error { return f.run(c, set, args) },
	}
	c.Flags().StringVar(&f.against, "against", "", "`SEGMENT` or brief to hold the figures against; of a class, each student's own page")
	c.Flags().StringVar(&f.like, "like", "", "`SEGMENT` that gives what cannot be read, where a file names none")
	c.Flags().StringVar(&f.format, "format", "table", "`FORMAT`: table, json or csv")
	c.Flags().StringArrayVarP(&f.out, "output", "o", nil, "also write this `FILE`: .yaml is a profile, "+endings()+" the picture with its "+
		"figures; may be given several times")
	c.Flags().BoolVar(&f.force, "force", false, "replace files that are there already")
	c.Flags().BoolVar(&f.fresh, "new", false, "write a marks file to fill in beside each picture that FILE names")
	c.Flags().BoolVar(&f.show, "show", false, "draw the marks over the picture, numbered, instead of reading them; wants -o")
	completeFlag(c, "format", "table", "json", "csv")
	completeFlag(c, "like", segments.Names()...)
	completeFlag(c, "against", segments.Names()...)
	return c
}

// run does what the flags say.
func (f *readFlags) run(c *cobra.Command, set *files.Set, args []string) error {
	if err := checkFormat(f.format, "table", "json", "csv"); err != nil {
		return err
	}
	switch {
	case f.fresh && (f.show || f.against != "" || len(f.out) > 0 || c.Flags().Changed("format")):
		return usagef("--new writes a marks file beside each picture and reads nothing; want only --like and --force with it")
	case f.fresh:
		return f.newMarks(c, set, args)
	case f.show && len(f.out) == 0:
		return usagef("--show draws the marks over the picture; want -o and a name that ends in %s", endings())
	case f.show && (f.against != "" || f.like != "" || c.Flags().Changed("format")):
		return usagef("--show reads nothing; want only -o and --force with it")
	case f.show:
		return f.showMarks(c, set, args)
	}
	readings, err := f.load(args, c.InOrStdin())
	if err != nil {
		return err
	}
	standard, err := f.standard(readings)
	if err != nil {
		return err
	}
	readings = standard.readings
	outputs, notes, err := f.outputs(readings, standard)
	if err != nil {
		return err
	}
	if f.format != "table" { // a table says them itself
		for _, r := range readings {
			notes = append(notes, slice.Map(r.Messages, func(text string) string { return r.Name + ": " + text })...)
		}
	}
	var text bytes.Buffer
	if err := f.print(&text, readings, standard); err != nil {
		return err
	}
	return f.finish(c, set, text.Bytes(), outputs, append(standard.notes, notes...))
}

// finish writes what is printed and all files: where one fails, no file is put in place.
func (f *readFlags) finish(c *cobra.Command, set *files.Set, text []byte, outputs []output, notes []string) error {
	if err := f.stage(set, outputs); err != nil {
		return err
	}
	if _, err := c.OutOrStdout().Write(text); err != nil {
		return err
	}
	if err := set.Commit(); err != nil {
		return err
	}
	tell(c.ErrOrStderr(), "note", notes...)
	for _, file := range outputs {
		tellWritten(c.ErrOrStderr(), file.path, file.facts)
	}
	return nil
}

// load reads all files; --like stands in where a marks file or a row names no segment.
func (f *readFlags) load(paths []string, in io.Reader) ([]reading.Reading, error) {
	if err := f.findLike(); err != nil {
		return nil, err
	}
	inputs, err := reading.Load(paths, in)
	if err != nil {
		return nil, err
	}
	var out []reading.Reading
	f.files = map[*reading.Picture]*reading.File{}
	if f.like != "" && !segments.IsName(f.like) {
		f.inputs = append(f.inputs, f.like)
	}
	for _, input := range inputs {
		f.inputs = append(f.inputs, input.Path)
		if input.Marks != nil {
			f.inputs = append(f.inputs, input.Marks.Inputs()...)
			f.files[input.Readings[0].Picture] = input.Marks
		}
		for _, r := range input.Readings {
			if r.Like == nil {
				r.Like = f.segment
			}
			out = append(out, r)
		}
	}
	return out, nil
}

// findLike finds the segment of --like.
func (f *readFlags) findLike() (err error) {
	if f.like == "" {
		return nil
	}
	f.segment, err = segments.Find(f.like)
	var unknown segments.UnknownName
	if errors.As(err, &unknown) {
		return usagef("--like: %v", err)
	}
	return err
}

// outputs draws or writes every file of -o in memory.
func (f *readFlags) outputs(readings []reading.Reading, s standard) (out []output, notes []string, err error) {
	for i, path := range f.out {
		_, known := targetOf(path)
		switch {
		case slices.Contains(f.out[:i], path):
			return nil, nil, usagef("-o: %s is named twice", path)
		case isProfile(path):
			file, more, err := profileOf(path, readings)
			if err != nil {
				return nil, nil, err
			}
			out, notes = append(out, file), append(notes, more...)
		case known:
			drawn, err := f.photoSheets(path, readings, s)
			if err != nil {
				return nil, nil, err
			}
			out = append(out, drawn...)
		default:
			return nil, nil, usagef("-o %s: unknown kind of file; want a name that ends in .yaml for a profile, or in %s", path, endings())
		}
	}
	return out, notes, nil
}

// profileOf writes the only reading as a profile.
func profileOf(path string, readings []reading.Reading) (output, []string, error) {
	if len(readings) != 1 {
		return output{}, nil, usagef("-o %s: a profile is of one vehicle, and there are %d; hubrule norms makes one of many", path, len(readings))
	}
	text, notes, err := draw.ReadingProfile(readings[0])
	return output{path: path, data: []byte(text)}, notes, err
}

// stage adds the files to the set. A profile is replaced only by --force, since it may have been changed by hand; what is read never is.
func (f *readFlags) stage(set *files.Set, outputs []output) error {
	for _, file := range outputs {
		if err := refuseInput(file.path, f.inputs); err != nil {
			return err
		}
		refuse := refuseForeign
		if isProfile(file.path) {
			refuse = func(o ...output) error { return refuseExisting("name another file with -o", o...) }
		}
		if !f.force {
			if err := refuse(file); err != nil {
				return err
			}
		}
		if err := set.Add(file.path, file.data); err != nil {
			return err
		}
	}
	return nil
}

// print writes the readings to standard output.
func (f *readFlags) print(w io.Writer, readings []reading.Reading, s standard) error {
	switch f.format {
	case "json":
		return readingsJSON(w, readings, s)
	case "csv":
		readingsCSV(w, readings)
		return nil
	}
	for i, r := range readings {
		if i > 0 {
			fmt.Fprintln(w)
		}
		readingTable(w, r, s, i)
	}
	fmt.Fprintf(w, "\n%s\n", caution)
	return nil
}
