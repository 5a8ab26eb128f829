package reading

import (
	"path/filepath"
	"testing"
)

// BenchmarkReading: with a known lens at most 10 ms, with the eight lenses mixed at most 60 ms, on one core.
func BenchmarkReading(b *testing.B) {
	for _, name := range []string{"focal-yaw", "plain", "far-no-lens", "no-help"} {
		b.Run(name, func(b *testing.B) {
			file, err := LoadMarks(filepath.Join(testdata, name+"-noisy.yaml"), nil)
			if err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				if _, err := file.Reading(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
