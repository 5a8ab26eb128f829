package reading

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"hubrule/internal/fault"
	"hubrule/internal/parallel"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// Input is one file and what was read from it.
type Input struct {
	Path     string
	Marks    *File     // nil for a data sheet
	Readings []Reading // one of a marks file, one a row of a data sheet
}

// wantInput is what messages say is allowed.
const wantInput = "a marks file (.yaml), a data sheet (.csv) or a folder of them"

// Load reads marks files, data sheets and folders of both, in the order of the paths and, in a folder, of the names; [strict.Stdin] is a
// marks file from in. The error holds everything that is wrong in any of them.
func Load(paths []string, in io.Reader) ([]Input, error) {
	files, err := inputFiles(paths)
	if err != nil {
		return nil, err
	}
	inputs, errs := make([]Input, len(files)), make([]error, len(files))
	parallel.Do(len(files), func(i int) { inputs[i], errs[i] = load(files[i], in) })
	return inputs, errors.Join(errs...)
}

func load(path string, in io.Reader) (Input, error) {
	if isSheet(path) {
		readings, err := loadDataSheet(path)
		return Input{Path: path, Readings: readings}, err
	}
	file, err := LoadMarks(path, in)
	if err != nil {
		return Input{}, err
	}
	r, err := file.Reading()
	return Input{path, file, []Reading{r}}, err
}

func hasEnding(path string, endings ...string) bool {
	return slices.Contains(endings, strings.ToLower(filepath.Ext(path)))
}

func isSheet(path string) bool { return hasEnding(path, ".csv") }

// inputFiles lists the files that paths name, each once.
func inputFiles(paths []string) (files []string, err error) {
	for _, path := range paths {
		found, wrong := filesAt(path)
		for _, f := range found {
			if slices.Contains(files, f) {
				wrong = fmt.Errorf("%s stands twice; want it once", f)
			}
		}
		files, err = append(files, found...), errors.Join(err, wrong)
	}
	return files, err
}

// filesAt lists the files that one path names.
func filesAt(path string) ([]string, error) {
	if segments.IsStream(path) {
		return []string{path}, nil
	}
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return nil, fmt.Errorf("%s: %w", path, fault.Plain(err))
	case info.IsDir():
		return inFolder(path)
	case !isSheet(path) && !hasEnding(path, ".yaml", ".yml"):
		return nil, fmt.Errorf("%s; want %s", path, wantInput)
	}
	return []string{path}, nil
}

// inFolder lists the marks files and data sheets of a folder; YAML files of other kinds, like norms that were made there, are left out.
func inFolder(folder string) (files []string, err error) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", folder, fault.Plain(err))
	}
	for _, e := range entries {
		path := filepath.Join(folder, e.Name())
		switch {
		case e.IsDir() || strings.HasPrefix(e.Name(), "."):
		case isSheet(path), hasEnding(path, ".yaml", ".yml") && mayBeMarks(path):
			files = append(files, path)
		}
	}
	if files == nil {
		return nil, fmt.Errorf("%s: no marks file (.yaml) and no data sheet (.csv) in it", folder)
	}
	return files, nil
}

// mayBeMarks reports whether a file says that it is a marks file, or cannot be read, which is reported later.
func mayBeMarks(path string) bool {
	doc, err := strict.Load(path)
	if err != nil || doc.Err() != nil {
		return true
	}
	kind, _ := doc.Peek("kind")
	text, _ := kind.Scalar()
	return text == "marks"
}
