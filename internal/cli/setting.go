package cli

import (
	"strconv"
	"strings"

	"github.com/spf13/cobra"
	"golang.org/x/text/unicode/norm"

	"hubrule/fonts"
	"hubrule/internal/geom"
	"hubrule/render/png"
	"hubrule/render/request"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// settingFlags are the flags about paper and looks, as written.
type settingFlags struct {
	sheets, guides, against           []string
	count                             int
	paper, scale, facing              string
	labels, units, ink, title, author string
	dpi, given                        string
	portrait, outline, frame, checks  bool
	transparent, tile                 bool
	cameraFlags
}

func (s *settingFlags) register(c *cobra.Command) {
	f := c.Flags()
	f.StringArrayVar(&s.sheets, "sheet", []string{string(request.Full)}, "`KINDS` of sheet, comma-separated: "+join(request.AllKinds()))
	s.registerTogether(c)
	s.cameraFlags.register(c)
	f.StringVar(&s.paper, "paper", "A3", "`PAPER`: A4 to A1, letter, legal, tabloid, or a size like 500x300mm or 20x12in")
	f.BoolVar(&s.portrait, "portrait", false, "stand the paper on its short side")
	f.StringVar(&s.scale, "scale", "fit", "`SCALE`: fit, a reduction like 1:16, or the wheel on paper like wheel=60mm")
	f.BoolVar(&s.tile, "tile", false, "over as many pages as the scale takes, to cut and glue (with --scale 1:N or wheel=…)")
	f.StringVar(&s.facing, "facing", string(request.Left), "the `SIDE` that the front is on: left or right")
	f.StringArrayVar(&s.guides, "guides", nil, "draw only these `GUIDES`, comma-separated: "+join(request.Guides()))
	f.StringVar(&s.labels, "labels", string(request.FullLabels), "`STYLE` of the labels: none, short or full (where notes find no room they are left out)")
	f.StringVar(&s.given, "given", "1", "what practice sheets give, a `LEVEL`: 1 ground and wheels, 2 levels too, 3 counted wheels too, 4 all guides but one")
	f.StringVar(&s.units, "units", string(request.Wheels), "`UNITS` of the labels: w, mm or in")
	f.StringVar(&s.ink, "ink", "", "`INK`: dark, grey or pale (by kind of sheet: dark on full, pale on trace)")
	f.BoolVar(&s.outline, "outline", true, "draw the vehicle's outline, =false: do not (by kind of sheet: on full, on trace only in other views than the side)")
	f.Lookup("outline").DefValue = "false" // what help says of it; the kind decides
	f.BoolVar(&s.checks, "checks", false, "draw approach, breakover and departure angles too (an aid to sketching, never an approval)")
	f.BoolVar(&s.frame, "frame", false, "draw a frame with fields after ISO 5457")
	f.StringVar(&s.title, "title", "", "`WORDS` that name the sheet, instead of the segment's")
	f.StringVar(&s.author, "author", "", "the author's `NAME`, for the PDF's fields")
	f.StringVar(&s.dpi, "dpi", strconv.Itoa(usualDPI), "`DOTS` an inch of a .png, 30 to 1200")
	f.BoolVar(&s.transparent, "transparent", false, "no paper in a .png: lines and words only, to lay over a picture")
	f.SortFlags = false
	completeFlag(c, "paper", paperNames()...)
	completeFlag(c, "scale", "fit", "1:", "wheel=")
	completeFlag(c, "facing", "left", "right")
	completeFlag(c, "labels", "none", "short", "full")
	completeFlag(c, "units", "w", "mm", "in")
	completeFlag(c, "given", levels()...)
	completeFlag(c, "ink", "dark", "grey", "pale")
	completeFlag(c, "dpi", "150", "300", "600")
	completeList(c, "sheet", names(request.AllKinds())...)
	completeList(c, "guides", names(request.Guides())...)
}

// wrongSetting is what is wrong with one setting, wherever it was said.
type wrongSetting struct{ key, text string }

// read turns the settings into kinds of sheet and a setting; is reports which were said. All that is wrong is returned.
func (s *settingFlags) read(is func(key string) bool) (kinds []request.Kind, out request.Setting, wrong []wrongSetting) {
	check := func(key string, err error) {
		if err != nil {
			wrong = append(wrong, wrongSetting{key, err.Error()})
		}
	}
	var err error
	kinds, err = listOf(s.sheets, request.AllKinds()...)
	check("sheet", err)
	out.Paper, err = parsePaper(s.paper)
	if s.portrait {
		out.Paper = out.Paper.Upright()
	}
	if err == nil {
		err = out.Paper.Check()
	}
	check("paper", err)
	out.Scale, err = parseScale(s.scale)
	check("scale", err)
	out.Facing, err = oneOf(s.facing, request.Left, request.Right)
	check("facing", err)
	out.Labels, err = oneOf(s.labels, request.NoLabels, request.ShortLabels, request.FullLabels)
	check("labels", err)
	out.Units, err = oneOf(s.units, request.Wheels, request.Millimetres, request.Inches)
	check("units", err)
	s.readKindsOwn(is, &out, check)
	level, err := oneOf(s.given, levels()...)
	check("given", err)
	out.Given, _ = strconv.Atoi(level) // one of levels
	out.Frame, out.Checks, out.Tile = s.frame, s.checks, s.tile
	out.Title, err = parseWords(s.title)
	check("title", err)
	out.Author, err = parseWords(s.author)
	check("author", err)
	_, err = s.picture()
	check("dpi", err)
	s.cameraFlags.read(&out, check)
	return kinds, out, wrong
}

// readKindsOwn reads what each kind of sheet decides for itself where it is not said.
func (s *settingFlags) readKindsOwn(is func(key string) bool, out *request.Setting, check func(key string, err error)) {
	var err error
	if is("guides") {
		out.Guides, err = listOf(s.guides, request.Guides()...)
		check("guides", err)
	}
	if is("ink") {
		out.Ink, err = oneOf(s.ink, request.Dark, request.Grey, request.Pale)
		check("ink", err)
	}
	if is("outline") {
		out.Outline = request.Off
		if s.outline {
			out.Outline = request.On
		}
	}
}

// usualDPI is what a picture has unless told otherwise.
const usualDPI = 300

// picture returns what the flags say about pictures.
func (s *settingFlags) picture() (png.Options, error) {
	dpi, ok := strict.ParseNumber(s.dpi)
	if !ok || dpi < png.MinDPI || dpi > png.MaxDPI {
		return png.Options{}, usagef("%s; want %d to %d", strict.Excerpt(s.dpi), png.MinDPI, png.MaxDPI)
	}
	return png.Options{DPI: dpi, Transparent: s.transparent}, nil
}

// levels lists the levels of practice sheets.
func levels() []string {
	var out []string
	for level := request.GivenWheels; level <= request.GivenMost; level++ {
		out = append(out, strconv.Itoa(level))
	}
	return out
}

// mostWords is the longest title that still says something on a strip.
const mostWords = 80

// parseWords reads a title or an author's name.
func parseWords(given string) (string, error) {
	line, err := oneLine(given)
	if n := len([]rune(line)); err == nil && n > mostWords {
		return "", usagef("%d letters; want at most %d", n, mostWords)
	}
	return line, err
}

// oneLine reads words of any length and in any letters that stand on one line. Only control characters and ends of
// lines are no letters.
func oneLine(given string) (string, error) {
	// Some keyboards write an accent as a mark of its own after the letter; composed, it is one letter that the face has.
	given = norm.NFC.String(strings.TrimSpace(given))
	if letter, found := fonts.Control(given); found {
		return "", usagef("a control character, %q; want letters on one line", letter)
	}
	return given, nil
}

// parsePaper reads the name of a paper or a size like 500x300mm.
func parsePaper(given string) (request.Paper, error) {
	if p, ok := request.FindPaper(given); ok {
		return p, nil
	}
	width, height, isSize := strings.Cut(given, "x")
	if !isSize {
		return request.Paper{}, usageError{strict.Unknown("paper", given, paperNames()) + " (or a size like 500x300mm)"}
	}
	h, err := segments.ParseLength(height)
	if err != nil {
		return request.Paper{}, usagef("%v; want a size like 500x300mm or 20x12in", strict.Quote(given))
	}
	w, err := segments.ParseLength(width + h.Unit)
	if err != nil || h.Unit == "w" || w.Value <= 0 || h.Value <= 0 {
		return request.Paper{}, usagef("%v; want a size like 500x300mm or 20x12in", strict.Quote(given))
	}
	return request.Paper{Name: given, Width: w.MM(0), Height: h.MM(0)}, nil
}

// parseScale reads fit, 1:N or wheel=LENGTH.
func parseScale(given string) (request.Scale, error) {
	wrong := usagef("%s; want fit, a reduction like 1:16, or wheel=60mm", strict.Quote(given))
	if given == "fit" {
		return request.Scale{}, nil
	}
	if n, ok := strings.CutPrefix(given, "1:"); ok {
		v, ok := strict.ParseNumber(n)
		if !ok || v <= 0 || v > 1000 {
			return request.Scale{}, wrong
		}
		return request.Scale{Reduction: v}, nil
	}
	if n, ok := strings.CutPrefix(given, "wheel="); ok {
		l, err := segments.ParseLength(n)
		if err != nil || l.Unit == "w" || l.Value <= 0 {
			return request.Scale{}, wrong
		}
		return request.Scale{Wheel: l.MM(geom.MM(0))}, nil
	}
	return request.Scale{}, wrong
}

func paperNames() []string {
	var out []string
	for _, p := range request.Papers() {
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
