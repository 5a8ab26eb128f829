package cli

import (
	"fmt"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// fileName is the name of a student's file, without ending: the number keeps names apart and in order.
func (h *handoutFiles) fileName(student int) string {
	number := fmt.Sprintf("%0*d", len(fmt.Sprint(len(h.set.Students))), student+1)
	if name := safeName(h.set.Students[student].Name); name != "" {
		return number + "-" + name
	}
	return "student-" + number
}

// safeName turns a person's name into part of a file's name that every system takes: letters, digits, and single dashes for all else.
func safeName(name string) string {
	const most = 60 // letters; a file's name may have 255 bytes
	var b []rune
	for _, r := range norm.NFC.String(name) {
		switch {
		case unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r):
			b = append(b, r)
		case len(b) > 0 && b[len(b)-1] != '-':
			b = append(b, '-')
		}
		if len(b) == most || len(string(b)) > 180 {
			break
		}
	}
	return strings.Trim(string(b), "-")
}
