// Command hubrule lays out proportion underlays for sketching vehicles.
package main

import (
	"os"

	"hubrule/internal/cli"
)

func main() { os.Exit(cli.Main(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }
