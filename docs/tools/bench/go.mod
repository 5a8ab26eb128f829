// Comparisons with other programs: no part of hubrule, so its module builds and tests without them.
module hubrule/docs/tools/bench

go 1.26.0

require (
	github.com/klauspost/compress v1.20.4
	hubrule v0.0.0
)

require (
	github.com/agnivade/levenshtein v1.2.2 // indirect
	github.com/ajstarks/svgo v0.0.0-20211024235047-1546f124cd8b // indirect
	github.com/bep/imagemeta v1.0.1 // indirect
	github.com/phpdave11/gofpdi v1.0.14-0.20211212211723-1f10f9844311 // indirect
	github.com/pkg/errors v0.8.1 // indirect
	github.com/signintech/gopdf v0.37.0 // indirect
	golang.org/x/image v0.47.0 // indirect
	golang.org/x/sys v0.49.0 // indirect
	golang.org/x/text v0.43.0 // indirect
	gonum.org/v1/gonum v0.17.0 // indirect
	gopkg.in/yaml.v3 v3.0.1 // indirect
)

replace hubrule => ../../..
