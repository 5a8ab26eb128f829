module hubrule

go 1.26.0

require (
	github.com/agnivade/levenshtein v1.2.2
	github.com/ajstarks/svgo v0.0.0-20211024235047-1546f124cd8b
	github.com/bep/imagemeta v1.0.1
	github.com/google/go-cmp v0.7.0
	github.com/klauspost/compress v1.20.4
	github.com/rogpeppe/go-internal v1.16.0
	github.com/signintech/gopdf v0.37.0
	github.com/spf13/cobra v1.10.2
	github.com/spf13/pflag v1.1.0
	golang.org/x/image v0.47.0
	golang.org/x/text v0.43.0
	gonum.org/v1/gonum v0.17.0
	gopkg.in/yaml.v3 v3.0.1
)

require (
	github.com/inconshreveable/mousetrap v1.1.0 // indirect
	github.com/phpdave11/gofpdi v1.0.14-0.20211212211723-1f10f9844311 // indirect
	github.com/pkg/errors v0.8.1 // indirect
	golang.org/x/sys v0.49.0 // indirect
	golang.org/x/tools v0.51.0 // indirect
)
