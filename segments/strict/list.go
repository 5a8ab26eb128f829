package strict

import "strings"

// EmptyItem says what is wrong with a list like "sporty,".
const EmptyItem = "an item of the list is empty"

// SplitList cuts a list on the command line at a separator, and trims blanks. A comma between digits is a slip for a decimal point,
// which is reported with its number; a plus after an equals sign is a sign.
func SplitList(text string, separator byte) []string {
	var out []string
	begun := 0
	for i := range len(text) {
		before, after := strings.TrimRight(text[begun:i], " "), strings.TrimLeft(text[i+1:], " .")
		isSlip := separator == ',' && before != "" && isDigit(before[len(before)-1]) && after != "" && isDigit(after[0])
		if text[i] != separator || isSlip || separator == '+' && strings.HasSuffix(before, "=") {
			continue
		}
		out = append(out, strings.TrimSpace(text[begun:i]))
		begun = i + 1
	}
	return append(out, strings.TrimSpace(text[begun:]))
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }
