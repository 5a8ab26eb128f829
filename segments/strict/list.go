package strict

import "strings"

// EmptyItem says what is wrong with a list like "sporty,".
const EmptyItem = "an item of the list is empty"

// SplitList cuts a list on the command line at the characters of separators, and trims blanks. No name begins with a digit: before one, a
// comma is a slip for a decimal point, which is reported with its number, and a plus is a sign.
func SplitList(text, separators string) []string {
	var out []string
	begun := 0
	for i, c := range text {
		rest := strings.TrimLeft(text[i+1:], " .")
		if strings.ContainsRune(separators, c) && (rest == "" || rest[0] < '0' || rest[0] > '9') {
			out = append(out, strings.TrimSpace(text[begun:i]))
			begun = i + 1
		}
	}
	return append(out, strings.TrimSpace(text[begun:]))
}
