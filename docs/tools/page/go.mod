// What makes the page of `hubrule desk`: no part of hubrule, so its module builds and tests without it.
module hubrule/docs/tools/page

go 1.26.0

require github.com/evanw/esbuild v0.28.2

require golang.org/x/sys v0.0.0-20220715151400-c0bba94af5f8 // indirect
