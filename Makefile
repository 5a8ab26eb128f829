# What a fresh Debian with Go and make needs besides: the outside checkers of `make test`.
# The one list of system packages; everything else comes as Go modules.
CHECKERS := poppler-utils librsvg2-bin qpdf libxml2-utils imagemagick
# Heavier ones, for `make oracle` and `make bench` only.
ORACLES  := chromium mupdf-tools fontconfig libcairo2-dev pkg-config gcc

# Commands by which their presence is told.
CHECKER_COMMANDS := pdftoppm rsvg-convert qpdf xmllint convert

# Open data for checking lies beside the project on some machines; tests say plainly when it is absent.
DATA := $(wildcard $(CURDIR)/../shared/data)
ifneq ($(DATA),)
export HUBRULE_DATA ?= $(DATA)
endif

# A minute of every fuzz target. Left alone, the engine spends most of it on shortening each input that reached new code.
FUZZING := -fuzztime 60s -fuzzminimizetime 10x

export CGO_ENABLED := 0

.PHONY: help build test checkers oracle prove bench docs fuzz

help: ## list these targets
	@grep -hE '^[a-z]+:.*##' $(MAKEFILE_LIST) | sed 's/:.*## /\t/' | expand -t 12

build: ## build ./hubrule
	go build -trimpath -o hubrule .

test: checkers ## check everything; installs the outside checkers where they are missing
	go vet ./...
	HUBRULE_STRICT=1 go test ./...
	cd docs/tools/bench && go vet . && HUBRULE_STRICT=1 go test .

checkers: # the outside programs that read what the tool wrote
	@missing=; for c in $(CHECKER_COMMANDS); do command -v $$c >/dev/null || missing="$$missing $$c"; done; \
	if [ -n "$$missing" ]; then \
		echo "missing:$$missing; installing $(CHECKERS)"; \
		if command -v apt-get >/dev/null && [ "$$(id -u)" = 0 ]; then \
			apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $(CHECKERS) >/dev/null; \
		else \
			echo "please install: $(CHECKERS)"; exit 1; \
		fi; \
	fi

oracle: checkers ## check with heavier outside programs too: Chromium, MuPDF, cairo
	@missing=; for c in chromium mutool gcc pkg-config; do command -v $$c >/dev/null || missing="$$missing $$c"; done; \
	if [ -n "$$missing" ]; then echo "missing:$$missing; please install: $(ORACLES)"; exit 1; fi
	HUBRULE_STRICT=1 HUBRULE_ORACLE=1 go test ./... -run Oracle -v -count=1
	cd docs/tools/bench && HUBRULE_STRICT=1 HUBRULE_ORACLE=1 go test . -run Oracle -v -count=1

prove: ## solve 100,000 random briefs and prove every answer and every clash
	HUBRULE_PROVE=100000 go test ./layout -run 'SolveRandomPins|ClashesRandom|PinsAgain' -v -count=1 -timeout 60m

bench: ## measure one command and a thousand pages, side by side with others
	cd docs/tools/bench && go run .

docs: ## draw the pictures of the docs anew
	go run ./docs/tools/gallery

fuzz: ## feed strangers' input to the readers, a minute each
	go test ./segments/strict -run '^$$' -fuzz FuzzParse $(FUZZING)
	go test ./segments -run '^$$' -fuzz FuzzProfile $(FUZZING)
	go test ./segments -run '^$$' -fuzz FuzzParseLength $(FUZZING)
	go test ./segments -run '^$$' -fuzz FuzzParseTyre $(FUZZING)
	go test ./segments -run '^$$' -fuzz FuzzTweak $(FUZZING)
	go test ./segments -run '^$$' -fuzz FuzzParseDose $(FUZZING)
	go test ./segments -run '^$$' -fuzz FuzzPin $(FUZZING)
	go test ./segments -run '^$$' -fuzz FuzzBrief $(FUZZING)
	go test ./layout -run '^$$' -fuzz FuzzSolve $(FUZZING)
	go test ./fonts -run '^$$' -fuzz FuzzShape $(FUZZING)
	go test ./fonts -run '^$$' -fuzz FuzzOpenFallback $(FUZZING)
