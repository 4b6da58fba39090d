# Every entry point uses the same toolchain and no C.
export GOTOOLCHAIN := go1.27.3
export CGO_ENABLED := 0
# For one package; slow machines need it.
TIMEOUT ?= 25m
VERSION ?= $(shell git describe --tags --always --dirty 2>/dev/null || echo unknown)
LDFLAGS := -s -w -X main.version=$(VERSION)

.PHONY: help
help: ## list the targets
	@grep -E '^[a-z]+:.*## ' $(MAKEFILE_LIST) | sed -E 's/:.*## /\t/' | expand -t 10

.PHONY: build
build: ## build vaultd and vaultctl into bin/
	go build -trimpath -ldflags '$(LDFLAGS)' -o bin/ ./cmd/vaultd ./cmd/vaultctl

.PHONY: demo
demo: build ## run the main job on a demo vault, made anew in demo-vault/
	@rm -rf demo-vault
	@bin/vaultctl demo demo-vault

.PHONY: tools
tools: ## install the outside programs that the tests use as judges
	@sh .ci/tools

.PHONY: check
check: ## formatting, vet for three systems, static analysis
	@test -z "$$(gofmt -l $$(git ls-files '*.go'))" || { gofmt -l $$(git ls-files '*.go'); echo 'run gofmt -w on these'; exit 1; }
	go vet ./...
	GOOS=windows go vet ./...
	GOOS=darwin go vet ./...
	go tool staticcheck ./...

.PHONY: test
test: tools check ## install what the tests need, then run all of them
	@$(MAKE) --no-print-directory -j 2 -k --output-sync=target packages faults
	go test -count=1 ./internal/layout # asks which packages there are, of which its cache knows nothing

.PHONY: packages faults
packages: # tests of every package
	go test -timeout $(TIMEOUT) ./...
faults: # where power fails, disks fill and programs die; they wait more than they reckon
	go test -count=1 -timeout $(TIMEOUT) -tags faultpoints ./faults/... # runs programs that its cache knows nothing of

.PHONY: screens
screens: tools ## keep pictures of every screen of the page in screens/
	@mkdir -p screens
	SCREENS=$(CURDIR)/screens go test -count=1 -run TestEveryScreen ./web

.PHONY: bench
bench: tools ## run the benchmarks
	go test -run '^$$' -bench . -benchtime 3x ./...

.PHONY: report
report: tools ## read 2 × 520 drawn papers and print how well, by field, language and source; then the pictures of older rounds
	PAGES=$(CURDIR)/.cache/pages REPORT=520 SCANS=12 go test -count=1 -timeout 60m -v -run TestReport ./extract
	WHOLE=1 go test -count=1 -timeout 60m -run 'TestBlindRounds|TestPictures|TestHardSets' ./extract

.PHONY: soak
soak: ## long runs: race detector, fuzzing, fault sweeps (hours)
	@sh .ci/tools soak
	CGO_ENABLED=1 go test -race -short ./watcher/... ./intake/... ./journal/...
	CGO_ENABLED=0 EVIDENCE_VAULT_POWER_CUTS=40 go test -tags faultpoints -timeout 30m -count=1 -run TestA03PowerCut ./faults
	RECOGNISE=1 go test -count=1 -run TestHardFiles ./extract/page
	PAGES=$(CURDIR)/.cache/pages ABLATIONS=5 go test -count=1 -timeout 60m -v -run TestAblation ./extract
	MUTANTS=150 SEED=$$(date +%s) go test -count=1 -timeout 60m -v -run TestDamagedCopies ./extract/page
	sh .ci/fuzz 10m
