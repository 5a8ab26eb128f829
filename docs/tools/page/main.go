// Command page bundles the page of `hubrule desk`: the TypeScript and CSS of internal/desk/page become the three files of its dist folder.
// `go generate ./internal/desk` runs it; its test fails when the files of dist are not what it writes.
package main

import (
	"fmt"
	"os"
	"path/filepath"

	"github.com/evanw/esbuild/pkg/api"
)

// source is the folder of the page, seen from here.
const source = "../../../internal/desk/page"

func main() {
	files, err := bundle(source)
	for name, bytes := range files {
		if err == nil {
			err = os.WriteFile(filepath.Join(source, "dist", name), bytes, 0o644)
		}
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "page:", err)
		os.Exit(1)
	}
}

// bundle returns the page's files by name. The same sources give the same bytes on every machine: no path and no time goes in.
func bundle(source string) (map[string][]byte, error) {
	root, err := filepath.Abs(source)
	if err != nil {
		return nil, err
	}
	result := api.Build(api.BuildOptions{
		AbsWorkingDir: root,
		EntryPointsAdvanced: []api.EntryPoint{
			{InputPath: "src/main.tsx", OutputPath: "page"},
			{InputPath: "style/page.css", OutputPath: "page"},
		},
		Outdir: filepath.Join(root, "dist"),
		Bundle: true, MinifyWhitespace: true, MinifyIdentifiers: true, MinifySyntax: true,
		Format: api.FormatESModule, Target: api.ES2020, Charset: api.CharsetUTF8, LegalComments: api.LegalCommentsInline,
		TsconfigRaw: `{"compilerOptions": {"jsx": "react", "jsxFactory": "h", "jsxFragmentFactory": "Fragment"}}`,
		Alias: map[string]string{
			"preact":       "./vendor/preact/dist/preact.mjs",
			"preact/hooks": "./vendor/preact/hooks/dist/hooks.mjs",
		},
		External: []string{"/fonts/*"},
	})
	if len(result.Errors) > 0 {
		return nil, fmt.Errorf("%s", api.FormatMessages(result.Errors, api.FormatMessagesOptions{})[0])
	}
	files := map[string][]byte{}
	for _, f := range result.OutputFiles {
		files[filepath.Base(f.Path)] = f.Contents
	}
	files["index.html"], err = os.ReadFile(filepath.Join(root, "index.html"))
	return files, err
}
