package segments

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"hubrule/segments/strict"
)

// A template is the whole segment under another name, and says of each figure what it measures.
func TestTemplate(t *testing.T) {
	for _, want := range All() {
		text, err := Template(want.Name)
		if err != nil {
			t.Fatal(err)
		}
		got, err := readOwnProfile("mine", strict.Parse("mine.yaml", []byte(text)))
		if err != nil {
			t.Errorf("%s: %v", want.Name, err)
			continue
		}
		want.Name, want.Aliases, want.inCatalogue = "mine", nil, false
		for i := range got.Pins {
			got.Pins[i].Origin = want.Pins[i].Origin
		}
		if diff := cmp.Diff(want, got, cmp.AllowUnexported(Profile{}, Pin{})); diff != "" {
			t.Errorf("%s read again (-want +got):\n%s", want.Name, diff)
		}
		for f := range FigureCount {
			line := "\n  # " + f.Info().Meaning
			if stated := strings.Contains(text, "\n  "+f.String()+":"); stated != strings.Contains(text, line) {
				t.Errorf("%s: %s stated %v; want %q as often", want.Name, f, stated, line)
			}
		}
	}
	for _, c := range []struct{ word, want string }{{"people carrier", ""}, {"suf", `unknown segment "suf"; did you mean "suv"?`}} {
		if _, err := Template(c.word); (err == nil) != (c.want == "") || err != nil && err.Error() != c.want {
			t.Errorf("Template(%q): %v; want %q", c.word, err, c.want)
		}
	}
}
