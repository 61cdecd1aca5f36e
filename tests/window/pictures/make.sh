#!/usr/bin/env bash
# Makes the pictures of docs/pictures anew, of the demo, from the program as it is built:
#   bash tests/window/pictures/make.sh [FOLDER] [ENDING...]      such as small-1x-light
# Every place in two sizes, at two scales, in two themes. Look at each of them before it is kept.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../../.."

folder=${1:-docs/pictures}
shift || true
wanted=("$@")
if [ ${#wanted[@]} -eq 0 ]; then wanted=({small,large}-{1x,2x}-{light,dark}); fi
for ending in "${wanted[@]}"; do
  IFS=- read -r size scale theme <<< "$ending"
  scale=${scale%x}
  case $size in
    small) width=1024 height=700 ;;
    large) width=1920 height=1080 ;;
    *) echo "$ending: no such size" >&2; exit 2 ;;
  esac
  case $theme in
    light) gtk=Adwaita ;;
    dark) gtk=Adwaita:dark ;;
    *) echo "$ending: no such theme" >&2; exit 2 ;;
  esac
  for what in demo first; do
    NO_AT_BRIDGE=1 GDK_SCALE=$scale GTK_THEME=$gtk xvfb-run -a \
      -s "-screen 0 $((width * scale))x$((height * scale))x24 -noreset" \
      build/tests/paint_places "$folder" "$ending" $what
  done
done
