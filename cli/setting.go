package cli

import (
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
	"golang.org/x/text/unicode/norm"

	"hubrule/fonts"
	"hubrule/geom"
	"hubrule/segments"
	"hubrule/segments/strict"
	"hubrule/sheet"
)

// settingFlags are the flags about paper and looks, as written.
type settingFlags struct {
	sheets, guides                    []string
	paper, scale, facing              string
	labels, units, ink, title, author string
	portrait, outline, frame          bool
}

func (s *settingFlags) register(c *cobra.Command) {
	f := c.Flags()
	f.StringArrayVar(&s.sheets, "sheet", []string{string(sheet.Full)}, "`KINDS` of sheet, comma-separated: "+join(sheet.Kinds()))
	f.StringVar(&s.paper, "paper", "A3", "`PAPER`: A4 to A1, letter, legal, tabloid, or a size like 500x300mm or 20x12in")
	f.BoolVar(&s.portrait, "portrait", false, "stand the paper on its short side")
	f.StringVar(&s.scale, "scale", "fit", "`SCALE`: fit, a reduction like 1:16, or the wheel on paper like wheel=60mm")
	f.StringVar(&s.facing, "facing", string(sheet.Left), "the `SIDE` that the front is on: left or right")
	f.StringArrayVar(&s.guides, "guides", nil, "draw only these `GUIDES`, comma-separated: "+join(sheet.Guides()))
	f.StringVar(&s.labels, "labels", string(sheet.FullLabels), "`STYLE` of the labels: none, short or full (where notes find no room they are left out)")
	f.StringVar(&s.units, "units", string(sheet.Wheels), "`UNITS` of the labels: w, mm or in")
	f.StringVar(&s.ink, "ink", "", "`INK`: dark, grey or pale (by kind of sheet: dark on full, pale on trace)")
	f.BoolVar(&s.outline, "outline", true, "draw the vehicle's outline, =false: do not (by kind of sheet: on full, not on trace)")
	f.Lookup("outline").DefValue = "false" // what help says of it; the kind decides
	f.BoolVar(&s.frame, "frame", false, "draw a frame with fields after ISO 5457")
	f.StringVar(&s.title, "title", "", "`WORDS` that name the sheet, instead of the segment's")
	f.StringVar(&s.author, "author", "", "the author's `NAME`, for the PDF's fields")
	f.SortFlags = false
	completeFlag(c, "paper", paperNames()...)
	completeFlag(c, "scale", "fit", "1:", "wheel=")
	completeFlag(c, "facing", "left", "right")
	completeFlag(c, "labels", "none", "short", "full")
	completeFlag(c, "units", "w", "mm", "in")
	completeFlag(c, "ink", "dark", "grey", "pale")
	completeList(c, "sheet", names(sheet.Kinds())...)
	completeList(c, "guides", sheet.Guides()...)
}

// read turns the flags into kinds of sheet and a setting.
func (s *settingFlags) read(flags *pflag.FlagSet) (kinds []sheet.Kind, out sheet.Setting, err error) {
	fail := func(e error) ([]sheet.Kind, sheet.Setting, error) { return nil, sheet.Setting{}, e }
	if kinds, err = listOf("--sheet", s.sheets, sheet.Kinds()...); err != nil {
		return fail(err)
	}
	if out.Paper, err = parsePaper(s.paper); err != nil {
		return fail(err)
	}
	if s.portrait {
		out.Paper = out.Paper.Upright()
	}
	if err := out.Paper.Check(); err != nil {
		return fail(usagef("--paper: %v", err))
	}
	if out.Scale, err = parseScale(s.scale); err != nil {
		return fail(err)
	}
	if out.Facing, err = oneOf("--facing", s.facing, sheet.Left, sheet.Right); err != nil {
		return fail(err)
	}
	if flags.Changed("guides") {
		if out.Guides, err = listOf("--guides", s.guides, sheet.Guides()...); err != nil {
			return fail(err)
		}
	}
	if out.Labels, err = oneOf("--labels", s.labels, sheet.NoLabels, sheet.ShortLabels, sheet.FullLabels); err != nil {
		return fail(err)
	}
	if out.Units, err = oneOf("--units", s.units, sheet.Wheels, sheet.Millimetres, sheet.Inches); err != nil {
		return fail(err)
	}
	if flags.Changed("ink") {
		if out.Ink, err = oneOf("--ink", s.ink, sheet.Dark, sheet.Grey, sheet.Pale); err != nil {
			return fail(err)
		}
	}
	if flags.Changed("outline") {
		out.Outline = sheet.Off
		if s.outline {
			out.Outline = sheet.On
		}
	}
	out.Frame = s.frame
	if out.Title, err = parseWords("--title", s.title); err != nil {
		return fail(err)
	}
	if out.Author, err = parseWords("--author", s.author); err != nil {
		return fail(err)
	}
	return kinds, out, nil
}

// mostWords is the longest title that still says something on a strip.
const mostWords = 80

// parseWords reads a title or a name: one line, of letters that the face has.
func parseWords(where, given string) (string, error) {
	// Some keyboards write an accent as a mark of its own after the letter; composed, it is one letter that the face has.
	given = norm.NFC.String(strings.TrimSpace(given))
	if n := len([]rune(given)); n > mostWords {
		return "", usagef("%s: %d letters; want at most %d", where, n, mostWords)
	}
	if missing := fonts.Missing(given); len(missing) > 0 {
		return "", usagef("%s: the sheets' face has no letter %q", where, missing[0])
	}
	return given, nil
}

// parsePaper reads the name of a paper or a size like 500x300mm.
func parsePaper(given string) (sheet.Paper, error) {
	if p, ok := sheet.FindPaper(given); ok {
		return p, nil
	}
	width, height, isSize := strings.Cut(given, "x")
	if !isSize {
		return sheet.Paper{}, usageError{"--paper: " + strict.Unknown("paper", given, paperNames()) + " (or a size like 500x300mm)"}
	}
	h, err := segments.ParseLength(height)
	if err != nil {
		return sheet.Paper{}, usagef("--paper: %v; want a size like 500x300mm or 20x12in", strict.Quote(given))
	}
	w, err := segments.ParseLength(width + h.Unit)
	if err != nil || h.Unit == "w" || w.Value <= 0 || h.Value <= 0 {
		return sheet.Paper{}, usagef("--paper: %v; want a size like 500x300mm or 20x12in", strict.Quote(given))
	}
	return sheet.Paper{Name: given, Width: w.MM(0), Height: h.MM(0)}, nil
}

// parseScale reads fit, 1:N or wheel=LENGTH.
func parseScale(given string) (sheet.Scale, error) {
	wrong := usagef("--scale: %s; want fit, a reduction like 1:16, or wheel=60mm", strict.Quote(given))
	if given == "fit" {
		return sheet.Scale{}, nil
	}
	if n, ok := strings.CutPrefix(given, "1:"); ok {
		v, ok := strict.ParseNumber(n)
		if !ok || v <= 0 || v > 1000 {
			return sheet.Scale{}, wrong
		}
		return sheet.Scale{Reduction: v}, nil
	}
	if n, ok := strings.CutPrefix(given, "wheel="); ok {
		l, err := segments.ParseLength(n)
		if err != nil || l.Unit == "w" || l.Value <= 0 {
			return sheet.Scale{}, wrong
		}
		return sheet.Scale{Wheel: l.MM(geom.MM(0))}, nil
	}
	return sheet.Scale{}, wrong
}

func paperNames() []string {
	var out []string
	for _, p := range sheet.Papers() {
		out = append(out, p.Name)
	}
	return out
}

func names[T ~string](list []T) []string {
	var out []string
	for _, v := range list {
		out = append(out, string(v))
	}
	return out
}

func join[T ~string](list []T) string { return strings.Join(names(list), " ") }
