package cli

import (
	"fmt"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"hubrule/internal/draw"
	"hubrule/internal/files"
	"hubrule/internal/handout"
	"hubrule/internal/slice"
	"hubrule/render/class"
	"hubrule/render/format"
	"hubrule/segments/strict"
)

// handoutFlags are the flags of handout, as written.
type handoutFlags struct {
	out, answers, split, format string
	only                        []string
	duplex, force               bool
	faceFlag
	pageLimit
}

// ownClass is the class file that help shows.
const ownClass = `  kind: class
  students: [Ada Marlow, Zoë Brand]   # or how many
  vary: 0.5       # figures of their own, within half of each range; 0: all alike
  pages:          # each a vehicle, as in a brief, and its sheets
    - {segment: suv, sheets: [practice], given: 2}`

func newHandout(set *files.Set) *cobra.Command {
	var f handoutFlags
	c := &cobra.Command{
		Use:   "handout CLASS.yaml",
		Short: "Print the sheets of a whole class, and the key to them",
		Long: "handout reads a class file (kind: class): the students, the pages that each of them gets, and by how much\n" +
			"each student's figures differ. It writes one file for printing, and with --answers-to the instructor's key.\n" +
			"In the place of a file - is standard input. A class file:\n\n" + ownClass + "\n\n" + caution,
		Example: "  hubrule handout class.yaml -o class.pdf --answers-to key.pdf\n" +
			"  hubrule handout class.yaml -o class.pdf --duplex\n" +
			"  hubrule handout class.yaml --split sheets --answers-to key.pdf\n" +
			"  hubrule handout class.yaml --split sheets --format svg\n" +
			"  hubrule handout class.yaml --only 'Ada Marlow' -o ada.pdf",
		Args: argCount(1, 1, "handout wants one class file; found %d names"),
		RunE: func(c *cobra.Command, args []string) error { return f.run(c, set, args[0]) },
	}
	flags, names := c.Flags(), handoutFormats("")
	flags.StringVarP(&f.out, "output", "o", "", "write all sheets to this `FILE."+names[0]+"` (or "+
		strict.JoinOr(handoutFormats(".")[1:])+": one file a sheet); - is standard output; without it the class file's name")
	flags.StringVar(&f.answers, "answers-to", "", "write the key, with cover and contents, to this `FILE.pdf`")
	flags.StringVar(&f.split, "split", "", "write one file for each student into this `FOLDER`, instead of one for all")
	flags.StringArrayVar(&f.only, "only", nil, "print only these students, absent or not: `NAME`[,NAME...]")
	flags.StringVar(&f.format, "format", names[0], "`FORMAT` of the files of --split: "+strict.JoinOr(names))
	flags.BoolVar(&f.duplex, "duplex", false, "for printing on both sides: every student's sheets start on a front")
	flags.BoolVar(&f.force, "force", false, "replace files that hubrule did not write")
	f.faceFlag.register(c)
	f.pageLimit.register(c)
	flags.SortFlags = false
	completeFlag(c, "format", names...)
	return c
}

// handoutFormats names the formats that sheets of a class are written in, the default first.
func handoutFormats(prefix string) []string {
	onePage := func(f format.Format) bool { return !f.Raster && !f.ManyPages() }
	return append(format.Names(prefix, format.Format.ManyPages), format.Names(prefix, onePage)...)
}

// check reads the flags and returns the format of the sheets.
func (f *handoutFlags) check(flagged func(string) bool) (kind format.Format, err error) {
	if f.answers != "" && filepath.Ext(f.answers) != ".pdf" {
		return kind, usagef("--answers-to %s: want a name that ends in .pdf", f.answers)
	}
	names, name := handoutFormats(""), strings.TrimPrefix(filepath.Ext(f.out), ".")
	switch {
	case f.split != "" && f.out != "":
		return kind, usagef("-o and --split both name the files of the sheets; give one of them")
	case f.split != "":
		if name, err = f.format, checkFormat(f.format, names...); err != nil {
			return kind, err
		}
	case flagged("format"):
		return kind, usagef("--format goes with --split; the ending of a name decides for other files")
	case f.out == "" || f.out == "-" || isFolder(f.out):
		name = names[0]
	case slices.Contains(names, name):
	case isDirectory(f.out):
		return kind, namesFolder(f.out)
	default:
		return kind, usagef("-o %s: unknown kind of file; want a name that ends in %s", f.out, strict.JoinOr(handoutFormats(".")))
	}
	kind, _ = format.Find(name)
	switch {
	case f.duplex && !kind.ManyPages():
		return kind, usagef("--duplex goes with PDF: %s has one page", kind.Noun)
	case f.answers != "" && files.Same(f.answers, f.out):
		return kind, usagef("--answers-to %s: the key does not go into the students' file; want another name", f.answers)
	}
	return kind, nil
}

// run composes, packs and writes page by page.
func (f *handoutFlags) run(c *cobra.Command, out *files.Set, path string) error {
	kind, err := f.check(c.Flags().Changed)
	if err != nil {
		return err
	}
	if err := f.faceFlag.use(); err != nil {
		return err
	}
	j, err := handout.Load(path, c.InOrStdin())
	if err != nil {
		return err
	}
	if f.answers != "" && !j.HasPractice() {
		return fmt.Errorf("--answers-to: no page of %s has a practice sheet, so there are no answers", path)
	}
	absent, err := f.choose(&j)
	if err != nil {
		return err
	}
	group := j.Class
	if f.split != "" {
		group.ByPage = false // a student's file holds all their pages
		if err := checkFileNames(group.Students); err != nil {
			return err
		}
	}
	most, err := f.pageLimit.most()
	if err == nil {
		err = draw.CheckPages(group.Count(), most)
	}
	if err != nil {
		return err
	}
	// Pages come and go by the thousand: three times the garbage costs some megabytes and saves a quarter of the time.
	defer debug.SetGCPercent(debug.SetGCPercent(300))
	set, remarks, err := group.Settle(c.Context())
	if err != nil {
		return err
	}
	h := &handoutFiles{flags: f, format: kind, stem: f.stem(path, group.Students), set: set,
		inputs: append(j.Inputs, f.faceFlag.path), out: out, errs: c.ErrOrStderr()}
	if err := h.write(c.Context()); err != nil {
		return err
	}
	tell(h.errs, "note", j.Notes...)
	tell(h.errs, "warning", draw.MissingLetters(handout.Words(group)...))
	tell(h.errs, "note", append(append(slice.Map(remarks, class.Remark.String), h.notes...), absent)...)
	h.tell()
	return nil
}
