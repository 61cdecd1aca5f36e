// The answer to "what do you want to fit?", in words.

#include <cmath>

#include "base/number.hpp"
#include "base/words.hpp"
#include "bench/fits_view.hpp"
#include "bench/quantity.hpp"
#include "bench/shown.hpp"
#include "fits/hardware.hpp"

namespace fitwright {
namespace {

constexpr double per_cent = 100;
constexpr int size_decimals = 2;

const char* spoken(SizeKind kind) {
  switch (kind) {
    case SizeKind::hole:
      return tr("hole");
    case SizeKind::peg:
      return tr("peg");
    case SizeKind::slot:
      return tr("slot");
    case SizeKind::tab:
      return tr("tab");
  }
  return "";
}

const char* spoken(Fit fit) {
  switch (fit) {
    case Fit::press:
      return tr("press");
    case Fit::snug:
      return tr("snug");
    case Fit::sliding:
      return tr("sliding");
    case Fit::loose:
      return tr("loose");
  }
  return "";
}

/// The mate and the nominal that the typed part asks for; or what is wrong, in a sentence.
struct Asked {
  Mate mate;
  double nominal_mm = 0;
  std::string wrong;
};

Asked bought(const std::string& typed, bool inside, Asked asked) {
  const auto found = find_hardware(typed);
  if (found.empty()) {
    asked.wrong = said(
        "Nothing is found by \u201c{}\u201d: try fewer words, such as bearing 608, M4 nut or magnet 6x3, or "
        "type a size in mm.",
        typed);
    return asked;
  }
  for (const HardwareSize& size : found.front().sizes)
    if (size.inside == inside) {
      asked.mate = mate_of(found.front(), size);
      asked.nominal_mm = size.nominal_mm;
      return asked;
    }
  asked.wrong = inside ? said("{} has no bore that a peg or a tab could go into.", found.front().name)
                       : said("{} has no outside that is tabled: type its size in mm.", found.front().name);
  return asked;
}

Asked asked_for(const FitQuestion& question) {
  Asked asked;
  const bool inside = !is_inside(question.kind);
  asked.mate.inside = inside;
  asked.mate.round = question.kind == SizeKind::hole || question.kind == SizeKind::peg;
  if (folded(question.part).empty()) {
    asked.wrong = question.partner == Partner::bought
                      ? tr("Type what goes in: a part such as bearing 608, M4 nut or magnet 6x3, or a size in mm.")
                      : tr("Type its size in mm.");
    return asked;
  }
  const auto size = from_field(question.part, Unit::mm, false);
  if (!size) {
    if (question.partner == Partner::bought) return bought(question.part, inside, asked);
    asked.wrong = tr("Type its size in mm, such as 8 or 7.98.");
    return asked;
  }
  asked.nominal_mm = *size;
  asked.mate.low_mm = asked.mate.high_mm = *size;
  asked.mate.kind = question.partner == Partner::printed ? MateKind::printed
                    : question.partner == Partner::read  ? MateKind::measured
                                                         : MateKind::exact;
  return asked;
}

}  // namespace

FitAnswer fit_answer(const FitsView& view, const FitQuestion& question) {
  FitAnswer answer;
  if (!view.basis) {
    answer.wrong = view.empty.empty() ? view.no_basis : view.empty;
    return answer;
  }
  const auto percent = parse_number(question.chance, true);
  if (!percent || *percent < 1 || *percent > 99.9) {
    answer.wrong = tr("The chance is a number of per cent from 1 to 99.9, such as 90.");
    return answer;
  }
  const Asked asked = asked_for(question);
  if (!asked.wrong.empty()) {
    answer.wrong = asked.wrong;
    return answer;
  }
  AllowanceRequest request;
  request.kind = question.kind;
  request.nominal_mm = asked.nominal_mm;
  request.fit = question.fit;
  request.mate = asked.mate;
  request.wanted_chance = *percent / per_cent;
  const auto found = allowance(view.basis->basis, request);
  if (!found) {
    for (const Problem& p : found.problems())
      answer.wrong +=
          (answer.wrong.empty() ? "" : " ") + capitalised(p.what + (p.remedy.empty() ? "." : ": " + p.remedy + "."));
    return answer;
  }
  const Allowance& a = *found;
  answer.size = said("{} mm", shown(a.draw_mm, size_decimals));
  answer.sentence = said("Draw the {} {} mm (\u00b1 {} mm, 95 %).", spoken(question.kind),
                         shown(a.draw_mm, size_decimals), shown(2 * a.best_size_u_mm, size_decimals));
  if (a.mate_draw_mm)
    answer.sentence += " " + said("Draw the other part {} mm.", shown(*a.mate_draw_mm, size_decimals));
  answer.chance = said("{} in 100 for a {} fit", shown(per_cent * a.chance, 0), spoken(question.fit));
  answer.reached = a.reached;
  if (!asked.mate.name.empty()) answer.reasons.push_back(capitalised(said("for {}.", asked.mate.name)));
  for (const std::string& reason : a.reasons) answer.reasons.push_back(typeset(reason));
  for (const ChanceLimit& limit : a.limits)
    answer.limits.push_back(typeset(said("{} %: {}", shown(per_cent * limit.share, 0), limit.text)));
  for (const std::string& caution : a.cautions) answer.cautions.push_back(typeset(caution));
  return answer;
}

}  // namespace fitwright
