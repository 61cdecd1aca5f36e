#!/usr/bin/env bash
# Installs what is missing, builds everything into build/, runs every test, and ends with CTest's line of counts.
# Works on a fresh Debian 12, as root or with sudo. Arguments go to ctest (for example: bash tests/run.sh -R reading).
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."

bash .ci/packages.sh tests

export CCACHE_BASEDIR="$PWD"  # so that a clone elsewhere finds what this one compiled
cmake --preset release -DFITWRIGHT_TESTS=ON  # gui/run.sh may have built here without them
cmake --build --preset release

# Window tests draw on a virtual screen; the accessibility bridge is not under test and would only wait for a bus.
log=build/ctest.log
failed=0
NO_AT_BRIDGE=1 xvfb-run -a -s "-screen 0 1280x800x24" \
  ctest --test-dir build -j2 --output-on-failure "$@" 2>&1 | tee "$log" || failed=$?

echo
grep -E '^[0-9]+% tests passed, [0-9]+ tests failed out of [0-9]+' "$log" || { echo "No test ran."; exit 1; }
exit "$failed"
