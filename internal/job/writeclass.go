package job

import (
	"slices"
	"strings"

	"hubrule/segments"
	"hubrule/segments/strict"
)

// WrittenClass returns a class file in YAML that is read as the same class: one key a line, one student and one page a line, the students in
// it whoever listed them. Equal classes have one text but for how their values were written.
func WrittenClass(file *segments.ClassFile) string {
	var w writer
	w.line("kind", "class")
	written := func(keys ...string) {
		for _, key := range keys {
			if v, ok := file.Table.Get(key); ok {
				w.line(key, v.Flow())
			}
		}
	}
	if file.Title != "" {
		w.line("title", strict.Plain(file.Title))
	}
	w.line("date", file.Date)
	written(classKeys()...)
	if items, isList := file.Listed(); isList {
		w.text.WriteString("students:\n  - " + strings.Join(items, "\n  - ") + "\n")
	} else {
		written("students")
	}
	w.text.WriteString("pages:\n")
	order := slices.Concat([]string{"segment", "tweak", "pin", "keep"}, pageKeys(), []string{"copies"})
	for _, p := range file.Pages {
		w.text.WriteString("  - " + p.Table.Value.Flow(order...) + "\n")
	}
	written("vary", "seed", "order")
	return w.text.String()
}

// ClassJSON returns a class as another program reads it.
func ClassJSON(file *segments.ClassFile) []byte {
	return strict.Parse("class.yaml", []byte(WrittenClass(file))).Top().JSON("kind")
}
