package class_test

import (
	"fmt"

	"hubrule/render/class"
)

func ExampleSet_NameOf() {
	set := class.Set{Class: class.Class{Students: []class.Student{{Name: "Ada"}, {}}}}
	fmt.Println(set.NameOf(0))
	fmt.Println(set.NameOf(1))
	// Output:
	// Ada
	// student 2
}
