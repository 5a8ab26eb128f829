package class_test

import (
	"fmt"

	"hubrule/render/class"
)

func ExampleClass_NameOf() {
	set := class.Class{Students: []class.Student{{Name: "Ada", Number: 1}, {Number: 2}}}
	fmt.Println(set.NameOf(0))
	fmt.Println(set.NameOf(1))
	// Output:
	// Ada
	// student 2
}
