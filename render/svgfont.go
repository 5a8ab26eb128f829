package render

import (
	"encoding/base64"
	"fmt"
	"strings"

	"hubrule/fonts"
)

// fontFamilies names the face and, for programs that neither have it nor read embedded fonts, other faces that
// are no wider, so that words stay clear of what stands beside them.
const fontFamilies = "'" + fonts.Family + "', 'Arial Narrow', 'Liberation Sans Narrow', sans-serif"

// fontFaces returns the style rules that embed the letters of p, one rule a weight, or nothing if p has no words.
func fontFaces(p Page) string {
	words := map[Weight][]string{}
	for _, m := range p.Marks {
		if t, ok := m.(*Text); ok {
			for _, s := range t.Spans {
				words[s.Weight] = append(words[s.Weight], s.Text)
			}
		}
	}
	var css strings.Builder
	for _, w := range fonts.Weights() {
		if len(words[w]) == 0 {
			continue
		}
		file := base64.StdEncoding.EncodeToString(fonts.Subset(words[w], w))
		fmt.Fprintf(&css, "@font-face{font-family:'%s';font-weight:%d;font-stretch:condensed;src:url(data:font/ttf;base64,%s)}\n",
			fonts.Family, w, file)
	}
	return css.String()
}
