#!/bin/sh
# Installs what the tests need, builds with warnings as errors and runs every test, the browser's
# included. Ends with ctest's summary.
#   sh tests/run.sh                 all of it
#   sh tests/run.sh -R measure      what follows goes to ctest
set -eu
cd "$(dirname "$0")/.."

sh src/packages.sh tests
(cd tests/page && npm ci --no-audit --no-fund --loglevel=error)
cmake -S . -B build/tests -G Ninja -Wno-dev -DPRITCHEL_TESTS=ON -DPRITCHEL_WARNINGS_AS_ERRORS=ON
ninja -C build/tests
ctest --test-dir build/tests --output-on-failure --no-tests=error "$@"
