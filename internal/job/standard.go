package job

import (
	"errors"

	"hubrule/layout"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// FindStandard finds the vehicle to hold readings against, what it is called, and whether its own figures are wanted: those of a brief or
// of a segment with tweaks or pins are, of a segment or profile its ranges count. Files, which may be nil, keep what was read.
func FindStandard(files *segments.Files, word string) (plan layout.Plan, name string, exact bool, err error) {
	j := Job{files: files}
	b, err := vehicleAgainst(&j, word)
	var wrong wordError
	if errors.As(err, &wrong) {
		return plan, "", false, UsageError("--against " + err.Error())
	}
	if err != nil {
		return plan, "", false, err
	}
	if plan, err = layout.Solve(b); err != nil {
		return plan, "", false, err
	}
	return plan, segments.Stem(word), len(b.Tweaks)+len(b.Pins) > 0 || kindOf(word) == "brief", nil
}

// kindOf returns what kind of file a path names; "" for a name, and a file that says nothing of it.
func kindOf(path string) string {
	if segments.IsName(path) {
		return ""
	}
	doc, err := strict.Load(path)
	if err != nil {
		return ""
	}
	kind, _ := doc.Peek("kind")
	text, _ := kind.Scalar()
	return text
}

// IsClass reports whether a path is that of a class file.
func IsClass(path string) bool { return kindOf(path) == "class" }
