#!/usr/bin/env bash
# Builds and runs the bench: time per estimate and per coupon on this machine. Arguments go to fw_bench.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
[ -f build/build.ninja ] || cmake --preset release
cmake --build --preset release --target fw_bench
build/tests/fw_bench "$@"
