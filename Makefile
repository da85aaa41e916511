# make demo and make test each work as the first command on a machine with Python 3.11+ and make.
PYTHON ?= python3
PORT ?= 8000

export PATH := $(CURDIR)/.venv/bin:$(PATH)
PIP := .venv/bin/python -m pip --disable-pip-version-check --no-input
LOCK := .venv/bin/uv pip compile --universal --python-version 3.11 --generate-hashes --no-emit-index-url --no-header -q
LOCKS := server/requirements

.PHONY: setup demo test bench test-faults check format lock clean

setup: .venv/.run web/vendor/.copied

demo: setup
	.venv/bin/rackside demo --port $(PORT)

test: setup .venv/.dev
	.venv/bin/python server/setup/system_packages.py
	.venv/bin/pytest

bench: setup .venv/.dev
	.venv/bin/pytest -s -o python_files='bench_*.py' tests/bench

# Many more steps and nights than make test has; RACKSIDE_SEED=number replays what a failure printed.
test-faults: setup .venv/.dev
	RACKSIDE_FAULTS=thorough .venv/bin/pytest -s tests/faults

check: setup .venv/.dev
	.venv/bin/ruff check .
	.venv/bin/ruff format --check .
	.venv/bin/mypy
	.venv/npm/node_modules/.bin/tsc -p web/jsconfig.json
	.venv/bin/pytest -q tests/test_architecture.py tests/test_repository.py

format: .venv/.dev
	.venv/bin/ruff check --fix .
	.venv/bin/ruff format .

# Writes the lock files anew from pyproject.toml and web/package.json; they name versions and hashes, never a host.
lock: .venv/.dev
	$(PIP) install -q uv
	$(LOCK) pyproject.toml -o $(LOCKS)/run.txt
	$(LOCK) pyproject.toml --group dev -c $(LOCKS)/run.txt -o $(LOCKS)/dev.txt
	$(LOCK) --group node -o $(LOCKS)/node.txt
	mkdir -p .venv/npm && cp web/package.json web/package-lock.json web/.npmrc .venv/npm/
	cd .venv/npm && npm install --ignore-scripts --package-lock-only && cp package-lock.json ../../web/

clean:
	rm -rf .venv web/vendor dist .mypy_cache .pytest_cache .ruff_cache .hypothesis
	find server tests seed_demo -name __pycache__ -prune -exec rm -rf {} +

.venv/bin/python:
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || \
	  { echo "Rackside needs Python 3.11 or newer: install it, then say make PYTHON=python3.11"; exit 1; }
	@$(PYTHON) -c 'import ensurepip, venv' 2>/dev/null || \
	  { echo "This Python cannot make a virtual environment: install the Debian package python3-venv"; exit 1; }
	$(PYTHON) -m venv .venv || { rm -rf .venv; exit 1; }

.venv/.run: pyproject.toml $(LOCKS)/run.txt | .venv/bin/python
	$(PIP) install -q --require-hashes -r $(LOCKS)/run.txt
	$(PIP) install -q --no-deps -e .
	@touch $@

.venv/.dev: $(LOCKS)/dev.txt .venv/.run
	$(PIP) install -q --require-hashes -r $(LOCKS)/dev.txt
	@touch $@

web/vendor/.copied: web/package.json web/package-lock.json web/.npmrc server/setup/vendor.py | .venv/.run
	command -v npm >/dev/null || $(PIP) install -q --require-hashes -r $(LOCKS)/node.txt
	mkdir -p .venv/npm && cp web/package.json web/package-lock.json web/.npmrc .venv/npm/
	cd .venv/npm && npm ci --ignore-scripts --no-audit --no-fund
	.venv/bin/python server/setup/vendor.py .venv/npm/node_modules web/vendor
	@touch $@
