package files_test

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"hubrule/internal/files"
)

func ExampleRun() {
	folder, err := os.MkdirTemp("", "example")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(folder)
	for _, room := range []bool{false, true} {
		err := files.Run(os.Stdout, func(_ context.Context, s *files.Set) error {
			if err := s.Add(filepath.Join(folder, "one.txt"), []byte("1")); err != nil {
				return err
			}
			if !room {
				return errors.New("no room for the second")
			}
			if err := s.Add(filepath.Join(folder, "two.txt"), []byte("2")); err != nil {
				return err
			}
			return s.Commit()
		})
		entries, _ := os.ReadDir(folder)
		fmt.Println(len(entries), "files;", err)
	}
	// Output:
	// 0 files; no room for the second
	// 2 files; <nil>
}
