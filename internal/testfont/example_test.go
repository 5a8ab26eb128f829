package testfont_test

import (
	"fmt"

	"hubrule/fonts"
	"hubrule/internal/testfont"
)

func Example() {
	face, err := fonts.OpenFallback(testfont.Relettered(fonts.Subset([]string{"AB"}, fonts.Regular), "語😀"))
	if err != nil {
		fmt.Println(err)
		return
	}
	defer fonts.SetFallback(fonts.SetFallback(face))
	fmt.Println(fonts.Shape("😀", fonts.Regular)[0].Advance == fonts.Shape("B", fonts.Regular)[0].Advance)
	fmt.Printf("%q\n", fonts.Missing("語😀字"))
	// Output:
	// true
	// ['字']
}
