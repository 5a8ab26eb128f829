package job

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"golang.org/x/text/unicode/norm"

	"hubrule/internal/slice"
	"hubrule/render/request"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// parseBool parses true or false.
func parseBool(word string) (bool, error) {
	if word != "true" && word != "false" {
		return false, errors.New(strict.Excerpt(word) + "; want true or false")
	}
	return word == "true", nil
}

// oneOf parses one of a closed set of names, in any case.
func oneOf[T ~string](word string, allowed []T) (T, error) {
	for _, name := range allowed {
		if strings.EqualFold(word, string(name)) {
			return name, nil
		}
	}
	return "", errors.New(strict.Unknown("value", word, request.Names(allowed)))
}

// listOf parses comma-separated names of a closed set, each once.
func listOf[T ~string](words []string, allowed []T) ([]T, error) {
	var out []T
	whole := strings.Join(words, ",")
	for word := range strings.SplitSeq(whole, ",") {
		if word = strings.TrimSpace(word); word == "" && whole != "" {
			return nil, errors.New(strict.EmptyItem)
		}
		v, err := oneOf(word, allowed)
		if err != nil {
			return nil, err
		}
		if slices.Contains(out, v) {
			return nil, fmt.Errorf("%q is named twice", string(v))
		}
		out = append(out, v)
	}
	return out, nil
}

// parseLevel parses how much a practice sheet gives.
func parseLevel(word string) (int, error) {
	level, err := oneOf(word, levels())
	return slices.Index(levels(), level) + request.GivenWheels, err
}

func levels() []string { return []string{"1", "2", "3", "4"} }

// maxCharacters is the longest title that still says something in a title block.
const maxCharacters = 80

// parseWords parses a title or an author's name.
func parseWords(word string) (string, error) {
	line, err := oneLine(word)
	if n := len([]rune(line)); err == nil && (n == 0 || n > maxCharacters) {
		return "", fmt.Errorf("%d characters; want 1 to %d", n, maxCharacters)
	}
	return line, err
}

// oneLine parses words of any length and in any script that stand on one line: everything except control characters and line breaks.
func oneLine(word string) (string, error) {
	// Some keyboards write an accent as a mark of its own after the letter; composed, it is one letter that the face has.
	word = norm.NFC.String(strings.TrimSpace(word))
	if letter, found := strict.Control(word); found {
		return "", fmt.Errorf("a control character, %q; want letters on one line", letter)
	}
	return word, nil
}

// parsePaper parses the name of a paper or a size like 500x300mm.
func parsePaper(word string) (request.Paper, error) {
	if p, ok := request.FindPaper(word); ok {
		return p, nil
	}
	size := strings.ToLower(word)
	width, height, isSize := strings.Cut(size, "x")
	if !isSize {
		return request.Paper{}, fmt.Errorf("unknown paper %s; want %s (or a size like 500x300mm or 1920x1080px)", strict.Quote(word),
			strict.JoinOr(paperNames()))
	}
	if high, inPixels := strings.CutSuffix(height, "px"); inPixels {
		return parsePixels(size, strings.TrimSuffix(width, "px"), high)
	}
	hint := ""
	if _, plain := strict.ParseNumber(height); plain {
		hint = ": the unit is missing"
	}
	wrong := fmt.Errorf("%v; want a size like 500x300mm, 20x12in or 1920x1080px%s", strict.Quote(word), hint)
	h, err := segments.ParseLength(height)
	if err != nil {
		return request.Paper{}, wrong
	}
	w, err := segments.ParseLength(width + h.Unit)
	if err != nil || h.Unit == "w" || w.Value <= 0 || h.Value <= 0 {
		return request.Paper{}, wrong
	}
	return request.Paper{Name: size, Width: w.MM(0), Height: h.MM(0)}, nil
}

// parsePixels parses the sides of a page for a screen. Its resolution is another setting.
func parsePixels(word string, sides ...string) (request.Paper, error) {
	var n [2]int
	for i, side := range sides {
		v, err := strict.Bounds{Lo: request.LeastPixels, Hi: request.MostPixels, Whole: true}.Parse(strings.TrimSpace(side))
		if err != nil {
			return request.Paper{}, fmt.Errorf("%s: %w pixels a side, like 1920x1080px", strict.Excerpt(word), err)
		}
		n[i] = int(v)
	}
	return request.PixelsIn(word, n[0], n[1], usualDPI), nil
}

// parseScale parses fit, 1:N or wheel=LENGTH.
func parseScale(word string) (request.Scale, error) {
	if word == "fit" {
		return request.Scale{}, nil
	}
	if n, ok := strings.CutPrefix(word, "1:"); ok {
		v, err := strict.Bounds{Lo: .001, Hi: 1000}.Parse(n)
		if err != nil {
			err = fmt.Errorf("%s: %w", strict.Excerpt(word), err)
		}
		return request.Scale{Reduction: v}, err
	}
	if n, ok := strings.CutPrefix(word, "wheel="); ok {
		mm, err := parseOnPaper(n, strict.Bounds{Lo: 1, Hi: 10_000, Unit: "mm"})
		if err != nil {
			err = fmt.Errorf("%s: %w", strict.Excerpt(word), err)
		}
		return request.Scale{Wheel: mm}, err
	}
	return request.Scale{}, fmt.Errorf("%s; want fit, a reduction like 1:16, or wheel=60mm", strict.Quote(word))
}

func paperNames() []string {
	return slice.Map(request.Papers(), func(p request.Paper) string { return p.Name })
}

// one completes a row for a setting that has one value.
func one[T any](s Setting, at func(*Job) *T, parse func(word string) (T, error), write func(T) string) Setting {
	s.parse = single(func(j *Job, word string) (err error) {
		*at(j), err = parse(word)
		return err
	})
	s.write = func(_ *writer, j Job) string { return write(*at(&j)) }
	return s
}

// single parses a setting that has one value.
func single(parse func(j *Job, word string) error) func(*Job, []string) error {
	return func(j *Job, words []string) error {
		if len(words) != 1 {
			return errors.New("a list; want one value")
		}
		return parse(j, words[0])
	}
}

// choice completes a row for one of a few names.
func choice[T ~string](s Setting, at func(*Job) *T, allowed ...T) Setting {
	s.Words = request.Names(allowed)
	return one(s, at, func(word string) (T, error) { return oneOf(word, allowed) }, func(v T) string { return string(v) })
}

// list completes a row for comma-separated names, each once. A flag given twice adds to its list.
func list[T ~string](s Setting, at func(*Job) *[]T, allowed []T) Setting {
	s.List, s.Words, s.Help = true, request.Names(allowed), fmt.Sprintf(s.Help, strings.Join(request.Names(allowed), " "))
	s.parse = func(j *Job, words []string) (err error) {
		*at(j), err = listOf(words, allowed)
		return err
	}
	s.write = func(_ *writer, j Job) string { return yamlList(*at(&j)) }
	return s
}

// flag completes a row for true or false.
func flag(s Setting, at func(*Job) *bool) Setting {
	s.Bool = true
	return one(s, at, parseBool, ifTrue)
}

// text completes a row for free words.
func text(s Setting, at func(*Job) *string) Setting {
	return one(s, at, parseWords, func(words string) string {
		if words == "" {
			return ""
		}
		return strconv.Quote(words)
	})
}

// number completes a row for a number.
func number[T ~float64](s Setting, at func(*Job) *T, lo, hi T) Setting {
	b := strict.Bounds{Lo: float64(lo), Hi: float64(hi)}
	s.Bounds = []strict.Bounds{b}
	return one(s, at, func(word string) (T, error) {
		v, err := b.Parse(word)
		return T(v), err
	}, inFull[T])
}
