# The one list of system packages, as program:package, that a fresh Debian needs besides Go and make; everything else comes as Go modules.
# First the outside programs of `make test`, then heavier ones for `make oracle` and `make bench` only.
CHECKERS := pdftoppm:poppler-utils rsvg-convert:librsvg2-bin qpdf:qpdf xmllint:libxml2-utils convert:imagemagick exiftool:libimage-exiftool-perl tsc:node-typescript chromium-headless-shell:chromium-headless-shell
ORACLES  := mutool:mupdf-tools fc-list:fontconfig gcc:gcc pkg-config:pkg-config pkg-config:libcairo2-dev git:git unzip:unzip qemu-aarch64:qemu-user wine:wine x86_64-w64-mingw32-gcc:gcc-mingw-w64-x86-64

# Lists the packages of the programs of $(1) that are not there, in the shell's variable packages, and says which are missing.
missing = packages=; for c in $(1); do \
	command -v $${c%:*} >/dev/null || { echo "$${c%:*} is missing; it is in the Debian package $${c\#*:}"; packages="$$packages $${c\#*:}"; }; done

# Open data for checking lies beside the project on some machines; tests say plainly when it is absent.
DATA := $(wildcard $(CURDIR)/../shared/data)
ifneq ($(DATA),)
export HUBRULE_DATA ?= $(DATA)
endif

# A minute of every fuzz target. Left alone, the engine spends most of it on shortening each input that reached new code.
FUZZING := -fuzztime $(or $(FUZZTIME),60s) -fuzzminimizetime 10x

export CGO_ENABLED := 0

# What the program is released for, but for linux/amd64, on which it is vetted by go vet; the second list differs from the first in the
# processor alone.
TARGETS := linux/arm64 darwin/arm64 windows/amd64
OTHERS  := darwin/amd64 windows/arm64

.PHONY: help build man install uninstall release test checks checkers views oracle prove bench docs fuzz attack

help: ## list these targets
	@grep -hE '^[a-z]+:.*##' $(MAKEFILE_LIST) | sed 's/:.*## /\t/' | expand -t 12

build: ## build ./hubrule
	go build -trimpath -o hubrule .

# Where things are installed; DESTDIR goes before it, for those who make packages.
PREFIX ?= /usr/local
SHARE = $(DESTDIR)$(PREFIX)/share

# The date of the manual pages is the commit's, not today's.
man install: export SOURCE_DATE_EPOCH ?= $(shell git log -1 --format=%ct 2>/dev/null)

man: ## write the manual pages into ./man
	go run ./docs/tools/man man

install: build man ## install program, manual pages and completions under PREFIX (/usr/local)
	install -D -m 755 hubrule $(DESTDIR)$(PREFIX)/bin/hubrule
	install -d $(SHARE)/man/man1 $(SHARE)/bash-completion/completions $(SHARE)/zsh/site-functions $(SHARE)/fish/vendor_completions.d
	install -m 644 man/*.1 $(SHARE)/man/man1
	./hubrule completion bash > $(SHARE)/bash-completion/completions/hubrule
	./hubrule completion zsh > $(SHARE)/zsh/site-functions/_hubrule
	./hubrule completion fish > $(SHARE)/fish/vendor_completions.d/hubrule.fish

uninstall: ## take away what install put under PREFIX
	rm -f $(DESTDIR)$(PREFIX)/bin/hubrule $(SHARE)/man/man1/hubrule.1 $(SHARE)/man/man1/hubrule-*.1 \
		$(SHARE)/bash-completion/completions/hubrule $(SHARE)/zsh/site-functions/_hubrule $(SHARE)/fish/vendor_completions.d/hubrule.fish

release: ## build the archives of VERSION=v1.0.0 into ./dist, twice with the same bytes
	@[ -n "$(VERSION)" ] || { echo "make release wants VERSION=v1.0.0"; exit 2; }
	go -C docs/tools/release run . -version "$(VERSION)"

test: checkers ## check everything; says which outside programs are missing and installs them
	@[ -n "$$HUBRULE_DATA" ] || echo "HUBRULE_DATA is not set: checks against open data are skipped"
	@# The browser's tests wait half of the time, so they go beside all others, and before them.
	@log=$$(mktemp); (cd docs/tools/browser && go vet . && HUBRULE_STRICT=1 go test -count=1 .) >$$log 2>&1 & browser=$$!; \
	nice $(MAKE) --no-print-directory checks; result=$$?; wait $$browser || result=1; cat $$log; rm $$log; exit $$result

# Collecting garbage less often takes a tenth off the checks, for some hundred megabytes.
checks: export GOGC := 400
checks: # all that make test checks outside the browser
	cd docs/tools/bench && go vet .
	cd docs/tools/page && go vet .
	cd docs/tools/release && go vet .
	go tool -modfile=docs/tools/lint/go.mod staticcheck ./...
	go run -C docs/tools/lint ./cross ../../.. $(TARGETS)
	HUBRULE_STRICT=1 go test -vet=all ./...
	cd docs/tools/bench && HUBRULE_STRICT=1 go test .
	cd docs/tools/page && HUBRULE_STRICT=1 go test -count=1 . # it reads files outside its module, which Go's cache does not watch

checkers: # the outside programs that read what the tool wrote
	@$(call missing,$(CHECKERS)); [ -n "$$packages" ] || exit 0; \
	if ! command -v apt-get >/dev/null || [ "$$(id -u)" != 0 ]; then echo "please install:$$packages"; exit 1; fi; \
	echo "installing with apt-get:$$packages"; \
	apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $$packages >/dev/null

views: ## check every kind of sheet and view in every setting (long)
	HUBRULE_STRICT=1 HUBRULE_ALL_VIEWS=1 go test ./render/sheet ./render/class -count=1 -timeout 120m

oracle: checkers ## check with heavier outside programs too: Chromium, MuPDF, cairo
	@$(call missing,$(ORACLES)); [ -z "$$packages" ] || { echo "please install:$$packages"; exit 1; }
	HUBRULE_STRICT=1 HUBRULE_ORACLE=1 go test ./... -run Oracle -v -count=1
	cd docs/tools/bench && HUBRULE_STRICT=1 HUBRULE_ORACLE=1 go test . -run Oracle -v -count=1
	go run -C docs/tools/lint ./cross ../../.. $(OTHERS)
	cd docs/tools/browser && HUBRULE_STRICT=1 HUBRULE_ORACLE=1 go test . -run 'DragByTouch|Accessibility|MarksByClicks|WaysOut' -v -count=1
	cd docs/tools/release && HUBRULE_ORACLE=1 go test . -run Oracle -v -count=1 -timeout 60m

prove: ## solve 100,000 random briefs and prove every answer and every clash; random readings and norms
	HUBRULE_PROVE=100000 go test ./layout -run 'SolveRandomPins|ClashesRandom|PinsAgain' -v -count=1 -timeout 60m
	HUBRULE_PROVE=1000 go test ./segments/reading -run 'Profile|Norms|Ranges|Outlier|Coverage' -v -count=1 -timeout 60m

bench: ## measure one command and a thousand pages, side by side with others
	cd docs/tools/bench && go run .

docs: ## draw the pictures of the docs anew
	go run ./docs/tools/school
	go run ./docs/tools/gallery
	cd docs/tools/browser && go run .

fuzz: ## feed strangers' input to the readers, a minute to each fuzz target
	@go test -list '^Fuzz' ./... | awk '/^Fuzz/ { names[n++] = $$1 } /^ok/ { for (i = 0; i < n; i++) print $$2, names[i]; n = 0 }' | \
	while read -r package target; do go test "$$package" -run '^$$' -fuzz "^$$target\$$" $(FUZZING) || exit 1; done

attack: ## attack the whole program: torn files, noise, signals, full disks (10 minutes)
	go run ./docs/tools/attack
	HUBRULE_ATTACK=10000 go test ./internal/desk -run 'Connections|Memory' -v -count=1
