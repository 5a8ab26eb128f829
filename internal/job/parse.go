package job

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"golang.org/x/text/unicode/norm"

	"hubrule/fonts"
	"hubrule/render/request"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// parseBool parses true or false.
func parseBool(word string) (bool, error) {
	yes, err := strconv.ParseBool(word)
	if err != nil {
		return false, errors.New(strict.Excerpt(word) + "; want true or false")
	}
	return yes, nil
}

// oneOf parses one of a closed set of names.
func oneOf[T ~string](word string, allowed []T) (T, error) {
	if slices.Contains(allowed, T(word)) {
		return T(word), nil
	}
	return "", errors.New(strict.Unknown("value", word, names(allowed)))
}

// listOf parses comma-separated names of a closed set, each once.
func listOf[T ~string](words []string, allowed []T) ([]T, error) {
	var out []T
	for _, word := range strings.Split(strings.Join(words, ","), ",") {
		v, err := oneOf(strings.TrimSpace(word), allowed)
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

// parseCount parses how many thumbnails there are.
func parseCount(word string) (int, error) {
	v, ok := strict.ParseNumber(word)
	if !ok || v != math.Trunc(v) {
		return 0, fmt.Errorf("%s; want a whole number", strict.Quote(word))
	}
	return int(v), checkCount(int(v))
}

// parseLevel parses how much a practice sheet gives.
func parseLevel(word string) (int, error) {
	level, err := oneOf(word, levels())
	return slices.Index(levels(), level) + request.GivenWheels, err
}

func levels() []string { return []string{"1", "2", "3", "4"} }

// maxWords is the longest title that still says something on a strip, in letters.
const maxWords = 80

// parseWords parses a title or an author's name.
func parseWords(word string) (string, error) {
	line, err := oneLine(word)
	if n := len([]rune(line)); err == nil && n > maxWords {
		return "", fmt.Errorf("%d letters; want at most %d", n, maxWords)
	}
	return line, err
}

// oneLine parses words of any length and in any letters that stand on one line. Only control characters and ends of lines are no letters.
func oneLine(word string) (string, error) {
	// Some keyboards write an accent as a mark of its own after the letter; composed, it is one letter that the face has.
	word = norm.NFC.String(strings.TrimSpace(word))
	if letter, found := fonts.Control(word); found {
		return "", fmt.Errorf("a control character, %q; want letters on one line", letter)
	}
	return word, nil
}

// parsePaper parses the name of a paper or a size like 500x300mm.
func parsePaper(word string) (request.Paper, error) {
	if p, ok := request.FindPaper(word); ok {
		return p, nil
	}
	width, height, isSize := strings.Cut(word, "x")
	if !isSize {
		return request.Paper{}, errors.New(strict.Unknown("paper", word, paperNames()) + " (or a size like 500x300mm)")
	}
	wrong := fmt.Errorf("%v; want a size like 500x300mm or 20x12in", strict.Quote(word))
	h, err := segments.ParseLength(height)
	if err != nil {
		return request.Paper{}, wrong
	}
	w, err := segments.ParseLength(width + h.Unit)
	if err != nil || h.Unit == "w" || w.Value <= 0 || h.Value <= 0 {
		return request.Paper{}, wrong
	}
	p := request.Paper{Name: word, Width: w.MM(0), Height: h.MM(0)}
	return p, p.Check()
}

// parseScale parses fit, 1:N or wheel=LENGTH.
func parseScale(word string) (request.Scale, error) {
	if word == "fit" {
		return request.Scale{}, nil
	}
	if n, ok := strings.CutPrefix(word, "1:"); ok {
		if v, ok := strict.ParseNumber(n); ok && v > 0 && v <= 1000 {
			return request.Scale{Reduction: v}, nil
		}
	}
	if n, ok := strings.CutPrefix(word, "wheel="); ok {
		if l, err := segments.ParseLength(n); err == nil && l.Unit != "w" && l.Value > 0 {
			return request.Scale{Wheel: l.MM(0)}, nil
		}
	}
	return request.Scale{}, fmt.Errorf("%s; want fit, a reduction like 1:16, or wheel=60mm", strict.Quote(word))
}

func paperNames() []string {
	var out []string
	for _, p := range request.Papers() {
		out = append(out, p.Name)
	}
	return out
}
