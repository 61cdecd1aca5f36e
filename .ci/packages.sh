#!/usr/bin/env bash
# Installs the Debian packages that building needs; with the argument "tests", also those that only the tests need.
# What is there already is left alone: nothing is asked and no network is used when nothing is missing.
# docs/dependencies.md says what each one is for; keep the two in step (tests/layers checks it).
set -euo pipefail

build=(
  g++ cmake ninja-build ccache pkg-config git
  libwxgtk3.2-dev libgtk-3-dev libeigen3-dev libboost-math-dev libsqlite3-dev nlohmann-json3-dev libcli11-dev
  libfmt-dev libpolyclipping-dev libcairo2-dev libpango1.0-dev lib3mf-dev libzip-dev
  fonts-dejavu-core fonts-cantarell
)
tests=(catch2 libcgal-dev admesh poppler-utils imagemagick xvfb xauth python3)

wanted=("${build[@]}")
if [ "${1:-}" = tests ]; then wanted+=("${tests[@]}"); fi

missing=()
for package in "${wanted[@]}"; do
  status=$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null || true)
  if [ "$status" != installed ]; then missing+=("$package"); fi
done
if [ ${#missing[@]} -eq 0 ]; then exit 0; fi

as_root=()
if [ "$(id -u)" -ne 0 ]; then
  if ! command -v sudo >/dev/null; then
    echo "These packages are missing and there is no sudo here: ${missing[*]}" >&2
    echo "Install them as root (apt-get install), then run this again." >&2
    exit 1
  fi
  as_root=(sudo)
fi

echo "Installing ${#missing[@]} missing packages: ${missing[*]}"
# One privileged call, so that a password is asked for once.
"${as_root[@]}" env DEBIAN_FRONTEND=noninteractive sh -c '
  apt-get update -q && apt-get install -y -q --no-install-recommends "$@"' packages "${missing[@]}"
