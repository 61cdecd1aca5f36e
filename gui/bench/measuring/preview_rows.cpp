#include "bench/measuring/preview_rows.hpp"

#include <algorithm>

#include "base/words.hpp"
#include "bench/measuring/length_shown.hpp"
#include "bench/shown.hpp"

namespace fitwright {
namespace {

void wrong_first(std::vector<PreviewRow>& rows) {
  std::stable_partition(rows.begin(), rows.end(), [](const PreviewRow& row) { return row.wrong; });
}

}  // namespace

PreviewRows preview_rows(const PastePreview& preview) {
  PreviewRows out;
  out.heading = said("Pasted: {}.", preview.summary);
  const bool block =
      std::any_of(preview.cells.begin(), preview.cells.end(), [](const PastedCell& c) { return c.column > 1; });
  for (const PastedCell& cell : preview.cells) {
    PreviewRow row;
    row.from = block ? said("row {}, column {}", cell.row, cell.column) : said("row {}", cell.row);
    row.text = cell.text;
    row.place = cell.place;
    row.wrong = !cell.wrong.empty();
    row.told = row.wrong ? cell.wrong : cell.remark;
    out.rows.push_back(std::move(row));
  }
  wrong_first(out.rows);
  out.notes = preview.notes;
  if (preview.good > 0)
    out.take = preview.wrong > 0 ? said_many("Take {} reading, leave the rest out",
                                             "Take {} readings, leave the rest out", preview.good)
                                 : said_many("Take {} reading", "Take {} readings", preview.good);
  return out;
}

PreviewRows preview_rows(const ImportPreview& preview, const std::string& source) {
  PreviewRows out;
  out.heading = source + ": " + preview.summary;
  for (const std::string& defect : preview.defects) out.rows.push_back({{}, {}, {}, defect, true});
  if (!preview.defects.empty()) return out;
  for (const ImportedRow& imported : preview.rows) {
    PreviewRow row;
    row.from = said("line {}", imported.line);
    row.text = as_read(imported.reading.reading_mm, preview.inches);
    row.place = imported.place.substr(0, imported.place.find(':'));
    row.told = imported.told;
    row.wrong = imported.what == ImportedRow::What::contradicts || imported.what == ImportedRow::What::differs;
    if (imported.what == ImportedRow::What::same) row.told = tr("here already");
    out.rows.push_back(std::move(row));
  }
  wrong_first(out.rows);
  const std::size_t fresh = preview.added + preview.beside;
  if (fresh + preview.differing > 0)
    out.take = fresh > 0 ? said_many("Take {} reading", "Take {} readings", fresh) : tr("Take");
  if (preview.differing > 0)
    out.replace = said_many("Replace {} reading that differs", "Replace {} readings that differ", preview.differing);
  return out;
}

}  // namespace fitwright
