package cli

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"hubrule/internal/outside"
	"hubrule/segments"
)

// sampleClass is the class file of the examples.
const sampleClass = "../../testdata/class/class.yaml"

// handedOut runs handout and returns the path of the sheets and of the key.
func handedOut(t *testing.T, class string, args ...string) (sheets, key string) {
	t.Helper()
	folder := t.TempDir()
	sheets, key = filepath.Join(folder, "sheets.pdf"), filepath.Join(folder, "key.pdf")
	var errs bytes.Buffer
	if code := Main(append([]string{"handout", class, "-o", sheets, "--answers-to", key}, args...), nil, &errs, &errs); code != exitDone {
		t.Fatalf("exit code %d: %s", code, &errs)
	}
	outside.Run(t, "qpdf", "--check", sheets)
	outside.Run(t, "qpdf", "--check", key)
	return sheets, key
}

// pagesOf returns the words of every page, as poppler reads them.
func pagesOf(t *testing.T, path string) []string {
	t.Helper()
	text := string(outside.Run(t, "pdftotext", "-layout", path, "-"))
	return strings.Split(strings.TrimSuffix(text, "\f"), "\f")
}

// TestHandoutAsOthersReadIt: poppler counts the pages of the sample class, finds every student's name and page number on their own
// sheets, in order, and the answers in the key only.
func TestHandoutAsOthersReadIt(t *testing.T) {
	t.Parallel()
	outside.Need(t, "qpdf", "pdfinfo", "pdftotext")
	sheets, key := handedOut(t, sampleClass)
	info := string(outside.Run(t, "pdfinfo", sheets))
	for _, want := range []string{"Title:           Proportions, week 3\n", "Pages:           20\n", "Page size:       1190.55 x 841.89 pts (A3)\n"} {
		if !strings.Contains(info, want) {
			t.Errorf("pdfinfo does not say %q:\n%s", want, info)
		}
	}
	names := []string{"Ada Marlow", "Bo Ilves", "Chidi Okoro", "Dana Lindqvist", "Émile Roux"}
	for i, words := range pagesOf(t, sheets) {
		if name := names[i/4]; !strings.Contains(words, name) {
			t.Errorf("page %d does not name %s:\n%s", i+1, name, words)
		}
		if number := fmt.Sprintf("page %d of 4", i%4+1); !strings.Contains(words, number) {
			t.Errorf("page %d does not say %q", i+1, number)
		}
		if strings.Contains(words, "Answer") || strings.Contains(words, "key") {
			t.Errorf("page %d holds an answer:\n%s", i+1, words)
		}
	}
	front := pagesOf(t, key)
	if len(front) != 6 || !strings.Contains(front[0], "Key to the practice sheets") {
		t.Fatalf("the key has %d pages", len(front))
	}
	for i, name := range names {
		if !regexp.MustCompile(name + ` +` + fmt.Sprint(i+2)).MatchString(front[0]) {
			t.Errorf("the contents do not lead to %s:\n%s", name, front[0])
		}
		if words := front[i+1]; !strings.Contains(words, name) || !strings.Contains(words, "Answer") || !strings.Contains(words, fmt.Sprintf("key, page %d of 6", i+2)) {
			t.Errorf("page %d of the key is not %s's:\n%s", i+2, name, words)
		}
	}
}

// classFile writes a class file and returns its path.
func classFile(t *testing.T, text string) string {
	t.Helper()
	return outside.File(t, "class.yaml", []byte(text))
}

// TestDuplex: printed on both sides, every student's sheets start on a front.
func TestDuplex(t *testing.T) {
	t.Parallel()
	outside.Need(t, "qpdf", "pdftotext")
	for _, order := range []string{"student", "page"} {
		file := classFile(t, "kind: class\nstudents: [Ada, Bo, Cy]\norder: "+order+"\npages:\n"+
			"  - {segment: suv, sheets: [steps, practice]}\n  - {segment: sedan, sheets: [practice]}\n")
		sheets, _ := handedOut(t, file, "--duplex")
		last, fronts, blank := "", 0, 0
		for i, words := range pagesOf(t, sheets) {
			if strings.TrimSpace(words) == "" {
				blank++
				continue
			}
			name := regexp.MustCompile(`Ada|Bo|Cy`).FindString(words)
			if name != last {
				last = name
				if fronts++; i%2 != 0 {
					t.Errorf("order %s: %s starts on page %d, a back", order, name, i+1)
				}
			}
		}
		if want := map[string]int{"student": 3, "page": 6}[order]; fronts < want-1 || blank != 2 {
			t.Errorf("order %s: %d fronts, %d blank backs", order, fronts, blank)
		}
	}
}

// TestOrderOfPages: page by page, every student's first sheet comes before anyone's second, and the key follows.
func TestOrderOfPages(t *testing.T) {
	t.Parallel()
	outside.Need(t, "qpdf", "pdftotext")
	file := classFile(t, "kind: class\nstudents: [Ada, Bo]\norder: page\nvary: 0.5\npages:\n"+
		"  - {segment: suv, sheets: [practice]}\n  - {segment: sedan, sheets: [practice]}\n")
	sheets, key := handedOut(t, file)
	found := func(pages []string) string {
		var out []string
		for _, words := range pages {
			out = append(out, regexp.MustCompile(`Ada|Bo`).FindString(words)+" "+regexp.MustCompile(`Sport utility|Sedan`).FindString(words))
		}
		return strings.Join(out, ", ")
	}
	const want = "Ada Sport utility, Bo Sport utility, Ada Sedan, Bo Sedan"
	if got := found(pagesOf(t, sheets)); got != want {
		t.Errorf("sheets: %s, want %s", got, want)
	}
	if got := found(pagesOf(t, key)[1:]); got != want {
		t.Errorf("key: %s, want %s", got, want)
	}
}

// TestSplitHoldsTheSameSheets: a student's own file holds what stands in the large one.
func TestSplitHoldsTheSameSheets(t *testing.T) {
	t.Parallel()
	outside.Need(t, "qpdf", "pdftotext")
	sheets, _ := handedOut(t, sampleClass)
	folder := filepath.Join(t.TempDir(), "each")
	var errs bytes.Buffer
	if code := Main([]string{"handout", sampleClass, "--split", folder}, nil, &errs, &errs); code != exitDone {
		t.Fatalf("exit code %d: %s", code, &errs)
	}
	all := pagesOf(t, sheets)
	for i, name := range []string{"Ada-Marlow", "Bo-Ilves", "Chidi-Okoro", "Dana-Lindqvist", "Émile-Roux"} {
		if own := pagesOf(t, filepath.Join(folder, name+".pdf")); strings.Join(own, "\f") != strings.Join(all[4*i:4*i+4], "\f") {
			t.Errorf("%s.pdf differs from pages %d to %d", name, 4*i+1, 4*i+4)
		}
	}
	if entries, _ := os.ReadDir(folder); len(entries) != 5 {
		t.Errorf("%d files", len(entries))
	}
}

// TestBookmarksOracle has MuPDF list the bookmarks, without anything to repair.
func TestBookmarksOracle(t *testing.T) {
	t.Parallel()
	outside.Oracle(t, "mutool")
	sheets, _ := handedOut(t, sampleClass)
	list := string(outside.Run(t, "mutool", "show", sheets, "outline"))
	for _, want := range []string{"Ada Marlow", "Sport utility, steps", "Émile Roux"} {
		if !strings.Contains(list, want) {
			t.Errorf("mutool lists no %q:\n%s", want, list)
		}
	}
	if said := string(outside.Run(t, "sh", "-c", `mutool info "$1" 2>&1`, "sh", sheets)); strings.Contains(said, "repair") {
		t.Errorf("mutool: %s", said)
	}
}

// TestSafeNames: whatever a name holds, the file's name is one that every system takes.
func TestSafeNames(t *testing.T) {
	t.Parallel()
	for name, want := range map[string]string{
		"Ada Marlow":             "Ada-Marlow",
		"../../etc/passwd":       "etc-passwd",
		"a/b\\c:d*e?f\"g<h>i|j":  "a-b-c-d-e-f-g-h-i-j",
		"CON":                    "CON",
		"Émile":                  "Émile",
		"张伟":                     "张伟",
		"🚗":                      "",
		"...":                    "",
		strings.Repeat("x", 300): strings.Repeat("x", 60),
	} {
		if got := segments.FileName(name); got != want {
			t.Errorf("segments.FileName(%q) = %q, want %q", name, got, want)
		}
	}
}
