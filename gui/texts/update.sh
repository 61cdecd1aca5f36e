#!/usr/bin/env bash
# Collects the texts of the window from the sources, and brings the catalogues up to date:
#   bash gui/texts/update.sh            fitwright.pot and every LANGUAGE.po; texts that are gone leave the catalogues
#   bash gui/texts/update.sh FILE.pot   only the collected texts, to FILE.pot (what a test compares)
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."

collect() {
  find calib coupons gui \( -name '*.cpp' -o -name '*.hpp' \) | LC_ALL=C sort |
    xgettext --files-from=- --output=- --from-code=UTF-8 --language=C++ --force-po --package-name=fitwright \
      --add-location=file --no-wrap \
      --keyword --keyword=tr:1 --keyword=tr:1,2 --keyword=said:1 --keyword=noted:1 --keyword=said_many:1,2 |
    sed -e '/^"POT-Creation-Date:/d' -e '/^"PO-Revision-Date:/d' -e 's/charset=CHARSET/charset=UTF-8/' -e '/^#, /d' -e '/^# /d' -e '/^#$/d'
}

if [ $# -gt 0 ]; then
  collect >"$1"
  exit
fi
collect >gui/texts/fitwright.pot
for po in gui/texts/*.po; do
  msgmerge --quiet --no-fuzzy-matching --no-wrap --add-location=file --output-file=- "$po" gui/texts/fitwright.pot |
    msgattrib --no-obsolete --no-wrap --output-file="$po.new" -
  mv "$po.new" "$po"
done
