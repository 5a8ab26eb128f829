package cli

import (
	"fmt"
	"iter"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"hubrule/internal/draw"
	"hubrule/internal/files"
	"hubrule/internal/job"
	"hubrule/internal/slice"
	"hubrule/render"
	"hubrule/render/format"
	"hubrule/render/request"
	"hubrule/segments/strict"
)

// drawFlags are the flags of draw about files.
type drawFlags struct {
	planFlags
	faceFlag
	pageLimit
	out          []string
	save, format string
	force        bool
	notes        []string // settings that were left out
	names        []string // of what is drawn: segments, and the files of profiles and briefs
}

// ownBrief is the brief that help shows.
const ownBrief = `  kind: brief
  segment: suv             # or ./mine.yaml, a profile of your own
  tweak: {sporty: 0.8}
  pin: {length: 4.6m}      # hubrule figures suv lists the figures
  sheets: [full, trace]
  paper: A3`

func newDraw(set *files.Set) *cobra.Command {
	var f drawFlags
	c := &cobra.Command{
		Use:   "draw SEGMENT...",
		Short: "Draw the proportion underlay of one or more segments",
		Long: "draw puts each segment on each kind of sheet, all at one wheel size, so that the sheets of one\n" +
			"command lie over each other on a light table. SEGMENT is a name (see hubrule segments), all\n" +
			"for every segment, or the path of a YAML file: a profile of your own, or a brief (kind: brief)\n" +
			"with tweaks, pins and settings; - reads one from standard input. A brief:\n\n" + ownBrief + "\n\n" +
			"Its settings are the flags below, without their dashes; --save writes the command as a brief.\n\n" + caution,
		Example: "  hubrule draw suv -o suv.pdf\n" +
			"  hubrule draw suv --sheet full,trace --paper A4 -o suv.pdf\n" +
			"  hubrule draw suv --sheet practice,answer --given 2 -o class.pdf\n" +
			"  hubrule draw suv --tweak sporty=0.8 --pin length=4600mm --sheet full,trace -o sporty.pdf\n" +
			"  hubrule draw sedan coupe sports --sheet trace -o three.pdf",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usagef("draw wants at least one segment; hubrule segments lists them")
			}
			if slices.Contains(job.SplitVehicles(args), "") {
				return usagef("%s", strict.EmptyItem)
			}
			return nil
		},
		ValidArgsFunction: func(c *cobra.Command, named []string, typed string) ([]string, cobra.ShellCompDirective) {
			names, directive := completeSegments(c, named, typed)
			if len(named) == 0 {
				names = append(names, everySegment)
			}
			return names, directive
		},
		RunE: func(c *cobra.Command, args []string) error { return f.draw(c, set, args) },
	}
	c.Flags().StringArrayVarP(&f.out, "output", "o", nil, "write to this `FILE`, "+endings()+
		"; may be given several times; - is standard output")
	c.Flags().StringVar(&f.format, "format", "", "`FORMAT` for -o -: "+strict.JoinOr(format.Names("", format.Any)))
	c.Flags().BoolVar(&f.force, "force", false, "replace files that hubrule did not write, and the one of --save")
	c.Flags().StringVar(&f.save, "save", "", "also write the command as a brief to this `FILE.yaml`")
	f.planFlags.register(c)
	registerSettings(c)
	f.faceFlag.register(c)
	f.pageLimit.register(c)
	completeFlag(c, "format", format.Names("", format.Any)...)
	groupFlags(c, job.Shape, "tweak", "pin", "keep")
	groupFlags(c, job.File, "output", "format", "force", "save", "font", "max-pages")
	return c
}

// draw composes everything in memory, then writes all files or none.
func (f *drawFlags) draw(c *cobra.Command, set *files.Set, args []string) error {
	args = job.SplitVehicles(args)
	targets, err := f.targets(c.Flags().Changed)
	if err != nil {
		return err
	}
	if err := f.faceFlag.use(); err != nil {
		return err
	}
	j, saved, err := f.job(c, args)
	if err != nil {
		return err
	}
	formats := slice.Map(targets, func(t target) format.Format { return t.format })
	if err := checkFileSettings(formats, c.Flags().Changed, j.Setting.Paper); err != nil {
		return err
	}
	most, err := f.pageLimit.most()
	if err != nil {
		return err
	}
	doc, messages, err := draw.Compose(c.Context(), j.Request, most)
	if err != nil {
		return err
	}
	nameInFolders(targets, strings.Join(f.names, "-"))
	j.Picture.Watcher = &rowsBar{to: c.ErrOrStderr(), start: time.Now()}
	drawn, err := renderAll(doc, targets, j)
	if err != nil {
		return err
	}
	inputs := append(draw.FilesOf(j.Request, slices.Concat(args, j.Files)...), f.faceFlag.path)
	for _, file := range drawn {
		if err := refuseInput(file.path, inputs); err != nil {
			return err
		}
	}
	if err := f.write(set, drawn, saved); err != nil {
		return err
	}
	errs := c.ErrOrStderr()
	notes, extremes := draw.PlanNotes(j.Plans)
	tell(errs, "note", notes...)
	tell(errs, "warning", slices.Concat(extremes, messages.Warnings, []string{draw.MissingLetters(draw.Words(doc)...)})...)
	tell(errs, "note", append(f.notes, messages.Notes...)...)
	for _, file := range slices.Concat(drawn, saved) {
		tellWritten(errs, file.path, file.facts)
	}
	return nil
}

// nameInFolders gives targets that name a folder a file there.
func nameInFolders(targets []target, name string) {
	for i, t := range targets {
		if isFolder(t.path) {
			targets[i].path = filepath.Join(t.path, name+"."+t.format.Name)
		}
	}
}

// write writes what was drawn and the brief to save. A file that another program wrote, and a brief, which may have been written by hand,
// are replaced only by --force.
func (f *drawFlags) write(set *files.Set, drawn, saved []output) error {
	if !f.force {
		if err := refuseForeign(drawn...); err != nil {
			return err
		}
		if err := refuseExisting("name another file with --save", saved...); err != nil {
			return err
		}
	}
	for _, file := range slices.Concat(drawn, saved) {
		if err := set.Add(file.path, file.data); err != nil {
			return err
		}
	}
	return set.Commit()
}

// target is one file, or standard output ("-"), and its format.
type target struct {
	path   string
	format format.Format
}

// targets reads -o and --format. Given reports which flags the command has.
func (f *drawFlags) targets(given func(flag string) bool) ([]target, error) {
	formatted := given("format")
	if formatted {
		if err := checkFormat(f.format, format.Names("", format.Any)...); err != nil {
			return nil, err
		}
	}
	var out []target
	seen := map[string]bool{}
	paths := f.out
	if len(paths) == 0 {
		paths = []string{"./"}
	}
	for _, path := range paths {
		if path == "" {
			return nil, usagef("-o: the file's name is missing")
		}
		key, err := filepath.Abs(path)
		if err != nil || path == "-" {
			key = path
		}
		if seen[key] {
			return nil, usagef("-o: %s is named twice", path)
		}
		seen[key] = true
		kind, err := f.formatOf(path, formatted)
		if err != nil {
			return nil, err
		}
		out = append(out, target{path, kind})
	}
	if formatted && !slices.ContainsFunc(f.out, func(path string) bool { return filepath.Ext(path) == "" }) {
		return nil, usagef("--format goes with -o -, a folder or a name without an ending; the ending decides for other files")
	}
	return out, nil
}

// formatOf returns the format of a file of -o: that of --format, if it was given, for standard output, a folder and names without
// an ending.
func (f *drawFlags) formatOf(path string, formatted bool) (format.Format, error) {
	ending := filepath.Ext(path)
	kind, known := format.Find(strings.ToLower(strings.TrimPrefix(ending, ".")))
	switch {
	case path != "-" && !isFolder(path) && !known && isDirectory(path):
		return kind, namesFolder(path)
	case ending == "" && formatted:
		kind, _ = format.Find(f.format)
	case path == "-":
		return kind, usagef("-o -: which format? Say %s", strict.JoinOr(format.Names("--format ", format.Any)))
	case isFolder(path):
		kind = format.All()[slices.IndexFunc(format.All(), func(f format.Format) bool { return f.Default })]
	case strings.TrimSuffix(filepath.Base(path), ending) == "":
		return kind, usagef("-o %s: the name before the dot is missing", path)
	case ending == "":
		return kind, usagef("-o %s: which format? Want a name that ends in %s, or --format", path, endings())
	case !known:
		return kind, usagef("-o %s: unknown kind of file; want a name that ends in %s", path, endings())
	}
	return kind, nil
}

// endings lists how the names of files may end.
func endings() string { return strict.JoinOr(format.Names(".", format.Any)) }

// checkFileSettings refuses settings about files of a format that is not written.
func checkFileSettings(written []format.Format, given func(flag string) bool, paper request.Paper) error {
	for _, s := range job.Settings() {
		if s.AboutFiles(paper) && given(s.Name) && !slices.ContainsFunc(written, s.Format) {
			or := ""
			if s.Name == "dpi" {
				or = ", or --paper in pixels"
			}
			return usagef("--%s needs -o and a name that ends in %s%s", s.Name, strict.JoinOr(format.Names(".", s.Format)), or)
		}
	}
	return nil
}

// isFolder reports whether a path of -o names a folder: what is drawn gets a name of its own there.
func isFolder(path string) bool { return path != "" && os.IsPathSeparator(path[len(path)-1]) }

// isDirectory reports whether there is a folder at a path.
func isDirectory(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}

// namesFolder is the error for a folder in the place of a file.
func namesFolder(path string) error {
	return usagef("-o %s: a folder; -o %s/ writes into it", path, path)
}

// renderAll turns the document into every file asked for, in memory.
func renderAll(doc render.Document, targets []target, j job.Job) ([]output, error) {
	return renderPages(doc, doc.Each(), targets, j)
}

// renderPages is renderAll for pages that are made one at a time, anew for each target, and not kept. The document's own are not looked
// at.
func renderPages(doc render.Document, pages iter.Seq2[render.Page, error], targets []target, j job.Job) ([]output, error) {
	var out []output
	for _, t := range targets {
		parts, sizes, err := draw.Render(doc, pages, t.format, j)
		if err != nil {
			return nil, err
		}
		if t.path == "-" && len(parts) > 1 {
			return nil, usagef("-o -: %s holds one page and there are %d; use --format %s or name a file",
				t.format.Noun, len(parts), strict.JoinOr(format.Names("", format.Format.ManyPages)))
		}
		for i, data := range parts {
			path := t.path
			if len(parts) > 1 {
				ext := filepath.Ext(path)
				width := len(strconv.Itoa(len(parts))) // so that names sort like pages
				path = fmt.Sprintf("%s-%0*d%s", strings.TrimSuffix(path, ext), width, i+1, ext)
			}
			out = append(out, output{path, data, factsOf(sizes, i, t.format, j.Picture)})
		}
	}
	return out, nil
}

// targetOf returns the file of a name that says its format by its ending, and whether it does.
func targetOf(path string) (target, bool) {
	kind, known := format.Find(strings.ToLower(strings.TrimPrefix(filepath.Ext(path), ".")))
	return target{path, kind}, known
}
