//go:build unix

package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
)

// readCalls is how often each kind of marks is read.
const readCalls = 100

// marks returns what a call has of a marks file.
func (s *served) marks(file string) (string, error) {
	text, err := os.ReadFile(filepath.Join(root, file))
	if err != nil {
		return "", err
	}
	body, err := json.Marshal(map[string]string{"yaml": string(text)})
	if err != nil {
		return "", err
	}
	_, data, err := s.send("/open", string(body))
	var opened struct{ Marks json.RawMessage }
	if err == nil {
		err = json.Unmarshal(data, &opened)
	}
	return string(opened.Marks), err
}

// benchMarks times the reading of marks, each call with a name of its own.
func (s *served) benchMarks(row func(name string, times []float64, err error) error) error {
	const screen = `, "screen": {"width": 1400, "height": 800, "lettering-px": 13, "shown": [0, 0, 1920, 1280]}`
	for _, c := range []struct{ name, file, more string }{
		{"`/read`, the lens known", "testdata/reading/focal-yaw-noisy.yaml", ""},
		{"`/read`, eight lenses tried", "testdata/reading/no-help-noisy.yaml", ""},
		{"`/read`, eight lenses tried, far tyres marked", "testdata/reading/far-no-lens-noisy.yaml", ""},
		{"`/read` with its sheet", "docs/examples/school/photos/averle.yaml", screen},
		{"`/read` with a segment over the picture", "docs/examples/school/photos/averle.yaml", screen + `, "against": "suv"`},
		{"`/read` with what would narrow it", "docs/examples/school/photos/averle.yaml", `, "narrows": true`},
	} {
		marks, err := s.marks(c.file)
		if err != nil {
			return err
		}
		var times []float64
		for n := range readCalls + readCalls/10 {
			t, _, err := s.send("/read", fmt.Sprintf(`{"marks": %s, "name": "side-%d"%s}`, marks, n, c.more))
			if err != nil {
				return err
			}
			if n >= readCalls/10 { // the first warm up
				times = append(times, t)
			}
		}
		if err := row(c.name, times, nil); err != nil {
			return err
		}
	}
	return nil
}
