#!/usr/bin/env bash
# Installs the Debian packages that building needs; with the argument "tests", also those that only the tests need.
# What is there already is left alone: nothing is asked and no network is used when nothing is missing.
# docs/dependencies.md says what each one is for; keep the two in step (tests/layers checks it).
set -euo pipefail

build=(
  g++ cmake ninja-build ccache pkg-config git
  libwxgtk3.2-dev libgtk-3-dev libeigen3-dev libboost-math-dev libsqlite3-dev nlohmann-json3-dev libcli11-dev
  libfmt-dev libpolyclipping-dev libcairo2-dev libpango1.0-dev lib3mf-dev libzip-dev
  fonts-dejavu-core fonts-cantarell librsvg2-common gettext libcmark-dev
)
tests=(catch2 libcgal-dev admesh poppler-utils imagemagick xvfb xauth python3 dbus-x11 at-spi2-core libatspi2.0-dev libxtst-dev)

wanted=("${build[@]}")
if [ "${1:-}" = tests ]; then wanted+=("${tests[@]}"); fi

missing=()
for package in "${wanted[@]}"; do
  status=$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null || true)
  if [ "$status" != installed ]; then missing+=("$package"); fi
done
if [ ${#missing[@]} -eq 0 ]; then exit 0; fi

if ! command -v apt-get >/dev/null; then
  echo "There is no apt-get here. These Debian 12 packages, or what they are called here, are missing: ${missing[*]}" >&2
  exit 1
fi
by_hand="apt-get update && apt-get install --no-install-recommends ${missing[*]}"
as_root=()
if [ "$(id -u)" -ne 0 ]; then
  if ! command -v sudo >/dev/null; then
    echo "${#missing[@]} packages are missing and there is no sudo here. Run as root, then start this again:" >&2
    echo "  $by_hand" >&2
    exit 1
  fi
  as_root=(sudo)
fi

echo "Installing ${#missing[@]} missing packages: ${missing[*]}"
# One privileged call, so that a password is asked for once. On a machine just started, Debian's own upgrade may hold the
# lock: it is waited for.
"${as_root[@]}" env DEBIAN_FRONTEND=noninteractive sh -c '
  apt-get update -q && apt-get install -y -q --no-install-recommends -o DPkg::Lock::Timeout=300 "$@"' \
  packages "${missing[@]}" || {
  echo "The packages could not be installed; the reason stands above. Once it is mended, start this again, or run as root:" >&2
  echo "  $by_hand" >&2
  exit 1
}
