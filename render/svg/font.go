package svg

import (
	"encoding/base64"
	"fmt"
	"strings"

	"hubrule/fonts"
	"hubrule/render"
)

// narrowFamilies names, for programs that neither have the face nor read embedded fonts, narrow faces that
// many systems have. Set in them, the words of a sheet are at most as wide as in the face: on average 0.96 of it
// in the first, 0.89 in the others, which share one set of widths (measured over 26 labels, no single one wider).
// Last comes whatever the system has, in its condensed form by font-stretch; that may be a sixth wider, and
// nothing in SVG that such programs obey would hold it back.
const narrowFamilies = "'Roboto Condensed', 'Arial Narrow', 'Liberation Sans Narrow', 'Nimbus Sans Narrow', sans-serif"

// fontFaces returns the style rules that embed the letters of p, one rule a weight and one for the fallback face, or
// nothing if p has no words; and the families that p's words are set in.
func fontFaces(p render.Page) (css, families string) {
	words := map[render.Weight][]string{}
	var all []string
	for _, m := range p.Marks {
		if t, ok := m.(*render.Text); ok {
			for _, s := range t.Spans {
				words[s.Weight] = append(words[s.Weight], s.Text)
				all = append(all, s.Text)
			}
		}
	}
	var rules strings.Builder
	for _, w := range fonts.Weights() {
		if len(words[w]) > 0 {
			fmt.Fprintf(&rules, "@font-face{font-family:'%s';font-weight:%d;font-stretch:condensed;src:url(data:font/ttf;base64,%s)}\n",
				fonts.Family, w, base64.StdEncoding.EncodeToString(fonts.Subset(words[w], w)))
		}
	}
	families = "'" + fonts.Family + "', "
	if file := fonts.SubsetFallback(all); file != nil {
		// One file serves every weight: else browsers would thicken its letters.
		fmt.Fprintf(&rules, "@font-face{font-family:'%s';font-weight:1 1000;src:url(data:font/ttf;base64,%s)}\n",
			fonts.FallbackFamily(), base64.StdEncoding.EncodeToString(file))
		families += "'" + fonts.FallbackFamily() + "', "
	}
	return rules.String(), families + narrowFamilies
}
