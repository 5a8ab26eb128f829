package cli_test

import (
	"fmt"
	"os"

	"hubrule/internal/cli"
)

func ExampleMain() {
	code := cli.Main([]string{"draw", "suvv"}, os.Stdin, os.Stdout, os.Stdout)
	fmt.Println("exit code", code)
	// Output:
	// hubrule: unknown segment "suvv"; did you mean "suv"?
	// exit code 2
}
