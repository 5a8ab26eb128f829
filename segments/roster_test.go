package segments

import (
	"fmt"
	"testing"
)

// Lists of students as people and spreadsheets write them, and what is wrong with others.
func TestParseRoster(t *testing.T) {
	const head = "want a first line that names the columns: name, and any of facing, set and absent"
	for _, c := range []struct{ file, data, students, wrong string }{
		{"n.txt", "\ufeffAda  Marlow\r\n\r\n Bo\r\n", "[{Ada Marlow 1   false} {Bo 2   false}]", ""},
		{"n.TXT", "E\u0301mile", "[{Émile 1   false}]", ""},
		{"n.csv", "name\nAda\n", "[{Ada 1   false}]", ""},
		{"n.csv", "Absent,NAME,set,facing\nyes,\"Marlow, Ada\",-7,LEFT\nno,Bo,+3,\n",
			"[{Marlow, Ada 1 left -7 true} {Bo 2  3 false}]", ""},
		{"n.csv", "name;set\r\nAda;\r\n;\r\n", "[{Ada 1   false}]", ""},
		{"n.csv", "name\tabsent\nAda\tx\n", "[{Ada 1   true}]", ""},
		{"n.csv", "name\tfacing\tabsent\nAda\t\tx\n", "[{Ada 1   true}]", ""},
		{"n.txt", "Ada\nBo\nada\n", "", `n.txt:3: "ada" is also on line 1; add an initial to tell them apart, like "ada B."`},
		{"n.csv", "name\nAda Marlow\n\nAda Marlow\n", "",
			`n.csv:4: "Ada Marlow" is also on line 2; add an initial to tell them apart, like "Ada B. Marlow"`},
		{"n.txt", "Ada\nB\xf6\n", "", "n.txt:2: not UTF-8; save the list as a text file in UTF-8"},
		{"n.txt", "A\tda\n", "", `n.txt:1: name: "A\tda"; want one line without control characters`},
		{"n.txt", "\n", "", "n.txt:1: 0 students; want 1 to 10000"},
		{"n.csv", "", "", "n.csv:1: no names of columns; " + head},
		{"n.csv", "Ada\nBo\n", "", "n.csv:1: no column name; " + head},
		{"n.csv", "name,absnt,name\n", "",
			"n.csv:1: unknown column \"absnt\"; did you mean \"absent\"? want name, facing, set or absent\n" +
				"n.csv:1: two columns name; want one"},
		{"n.csv", "name,set\nAda,1.5\nBo\n,3\n", "", "n.csv:2: set: 1.5; want a whole number, -9007199254740992 to 9007199254740992\n" +
			"n.csv:3: want 2 fields as on the first line, not 1\nn.csv:4: name: nothing; want a text of 1 to 300 characters"},
		{"n.csv", "name\nAda \"Ace\n", "", `n.csv:2: not CSV: bare " in non-quoted-field`},
	} {
		students, err := ReadRoster(c.file, []byte(c.data))
		switch {
		case c.wrong == "" && (err != nil || fmt.Sprint(students) != c.students):
			t.Errorf("%q: %v, %v; want %s", c.data, students, err, c.students)
		case c.wrong != "" && (err == nil || err.Error() != c.wrong):
			t.Errorf("%q: %v; want %s", c.data, err, c.wrong)
		}
	}
}
