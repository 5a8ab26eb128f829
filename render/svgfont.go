package render

import (
	"encoding/base64"
	"fmt"
	"strings"

	"hubrule/fonts"
)

// fontFamilies names the face and, for programs that neither have it nor read embedded fonts, narrow faces that
// many systems have. Set in them, the words of a sheet are at most as wide as in the face: on average 0.96 of it
// in the first, 0.89 in the others, which share one set of widths (measured over 26 labels, no single one wider).
// Last comes whatever the system has, in its condensed form by font-stretch; that may be a sixth wider, and
// nothing in SVG that such programs obey would hold it back.
const fontFamilies = "'" + fonts.Family + "', 'Roboto Condensed', 'Arial Narrow', 'Liberation Sans Narrow', 'Nimbus Sans Narrow', sans-serif"

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
