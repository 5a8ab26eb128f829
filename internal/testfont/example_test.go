package testfont_test

import (
	"fmt"

	"hubrule/fonts"
	"hubrule/internal/testfont"
)

func Example() {
	face, err := fonts.OpenAdded(testfont.Relettered(fonts.Subset([]string{"AB"}, fonts.Regular), "語😀"))
	if err != nil {
		fmt.Println(err)
		return
	}
	defer fonts.Extend(fonts.Extend(face))
	fmt.Println(fonts.Shape("😀", fonts.Regular)[0].Advance == fonts.Shape("B", fonts.Regular)[0].Advance)
	fmt.Printf("%q\n", fonts.Missing("語😀字"))
	// Output:
	// true
	// ['字']
}
