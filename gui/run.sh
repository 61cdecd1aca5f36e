#!/usr/bin/env bash
# Installs what is missing, builds into build/ and opens the window on the demo, or on the readings given:
#   bash gui/run.sh [FILE.csv | --record FILE]
# Works on a fresh Debian 12, as root or with sudo.
set -euo pipefail
here="$PWD"
cd "$(dirname "${BASH_SOURCE[0]}")/.."

bash .ci/packages.sh

export CCACHE_BASEDIR="$PWD"  # so that a clone elsewhere finds what this one compiled
# Tests need packages that running the program does not; they are left as they are where they were built before.
if [ ! -f build/build.ninja ]; then cmake --preset release -DFITWRIGHT_TESTS=OFF; fi
cmake --build build --target fitwright

if [ -z "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ]; then
  echo "Built: build/gui/fitwright. There is no display here to open the window on: start this again from a terminal of" >&2
  echo "the desktop (or over ssh -X). The command line needs no display: cmake --build build --target fitw" >&2
  exit 1
fi
program="$PWD/build/gui/fitwright"
cd "$here"
if [ $# -eq 0 ]; then set -- --demo; fi
exec "$program" "$@"
