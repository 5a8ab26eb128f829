package desk

import (
	"os"
	"testing"

	"hubrule/segments/strict"
)

// BenchmarkRead: the figures of marks, with a known lens at most 10 ms, with the eight lenses tried at most 60 ms.
func BenchmarkRead(b *testing.B) {
	for _, name := range []string{"focal-yaw", "plain", "no-help", "far-no-lens"} {
		b.Run(name, func(b *testing.B) {
			text, err := os.ReadFile("../../testdata/reading/" + name + "-noisy.yaml")
			if err != nil {
				b.Fatal(err)
			}
			d, err := Open("", nil)
			if err != nil {
				b.Fatal(err)
			}
			doc := strict.Parse("side.yaml", text)
			body := []byte(`{"marks": ` + string(doc.Top().JSON("kind")) + `}`)
			for b.Loop() {
				if _, err := d.readMarks(b.Context(), body); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
