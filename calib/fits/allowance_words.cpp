#include "fits/allowance_words.hpp"

#include <cmath>

#include "base/words.hpp"

namespace fitwright {
namespace {

constexpr int size_decimals = 2;

std::string mm(double value) { return said_fixed(value, size_decimals); }
std::string percent(double chance) { return said_fixed(100 * chance, 0); }

const char* kind_words(SizeKind kind) {
  switch (kind) {
    case SizeKind::hole:
      return noted("hole");
    case SizeKind::peg:
      return noted("peg");
    case SizeKind::slot:
      return noted("slot");
    case SizeKind::tab:
      break;
  }
  return noted("tab");
}

std::string mate_sentence(const Allowance& a) {
  const Mate& mate = a.request.mate;
  const std::string name = mate.name.empty() ? std::string(tr("the mate")) : mate.name;
  switch (mate.kind) {
    case MateKind::exact:
      return said("The mate is taken to be exactly {} mm.", said_shortest(mate.low_mm));
    case MateKind::limits:
      return said("{} is between {} and {} mm.", name, said_shortest(mate.low_mm), said_shortest(mate.high_mm));
    case MateKind::measured:
      return said(
          "{} was read as {} mm with the caliper that read the coupons, so that what this caliper adds cancels.", name,
          said_shortest(mate.low_mm));
    case MateKind::printed:
      break;
  }
  return said("Both parts are printed: this one takes {} % of the clearance, the other is to be drawn {} mm.",
              percent(a.request.share), mm(*a.mate_draw_mm));
}

}  // namespace

std::string words_for(ChanceLimit::What what, const AllowanceBasis& basis) {
  switch (what) {
    case ChanceLimit::What::thresholds:
      return basis.thresholds.assumed
                 ? tr("where one feel ends and the next begins is not known for this setup: try a fit ladder")
                 : tr("where one feel ends and the next begins is not sure: try more places near this fit");
    case ChanceLimit::What::feel:
      return tr("the same clearance does not always feel the same");
    case ChanceLimit::What::new_part:
      return tr("prints of the same size differ: measure the part and choose, or finish it by hand");
    case ChanceLimit::What::estimates:
      return tr("how this setup prints is not sure: read another coupon");
    case ChanceLimit::What::mate:
      break;
  }
  return tr("the mate's own size: measure yours with the same caliper");
}

void tell(Allowance& a, const AllowanceBasis& basis, const ClearanceLaw& law) {
  const auto say = [&](std::string text) { a.reasons.push_back(std::move(text)); };
  say(said("A {} drawn {} mm comes out {} mm, one new part within {} to {} mm (95 %).", tr(kind_words(a.request.kind)),
           mm(a.draw_mm), mm(a.printed_mm.value), mm(a.printed_mm.lower), mm(a.printed_mm.upper)));
  say(mate_sentence(a));
  say(a.clearance_mm.value >= 0 ? said("That leaves {} mm of clearance, within {} to {} mm (95 %).",
                                       mm(a.clearance_mm.value), mm(a.clearance_mm.lower), mm(a.clearance_mm.upper))
                                : said("That is {} mm too large to slide in: {} to {} mm of clearance (95 %).",
                                       mm(-a.clearance_mm.value), mm(a.clearance_mm.lower), mm(a.clearance_mm.upper)));
  for (std::size_t k = 0; k < a.chance_of.size(); ++k)
    if (static_cast<Grade>(k) != grade_of(a.request.fit) && a.chance_of[k] >= 0.05)
      say(said("In {} of 100 it {} instead.", percent(a.chance_of[k]), tr(felt(static_cast<Grade>(k)))));
  if (!a.reached) {
    say(said("{} in 100 cannot be promised by any size; {} in 100 is as far as it goes. What limits it most: {}.",
             percent(a.request.wanted_chance), percent(a.chance), a.limits.front().text));
  }
  if (basis.thresholds.assumed)
    say(
        tr("The thresholds between the grades are common practice, no source, with a wide spread: a fit ladder on this "
           "setup would tell."));
  else
    say(why_this_clearance(basis.thresholds));
  for (const std::string& note : law.notes) say(note);
  for (const auto& [parameter, sd] : law.parameters.prior_sd)
    say(said("{} was not read; a typical value with a wide spread is assumed.", parameter));

  if (a.request.fit == Fit::press) {
    a.cautions.push_back(
        tr("Press with a vice or an arbor, straight, not with a hammer; wear eye protection: brittle "
           "plastic throws splinters."));
    a.cautions.push_back(
        tr("Printed parts creep and crack along their layers: no press fit told here is rated for "
           "load. Nothing that holds a person, pressure, heat or mains voltage without a qualified "
           "person's design."));
  }
  if (a.request.mate.name.find("magnet") != std::string::npos)
    a.cautions.push_back(
        tr("Small magnets are dangerous when swallowed: keep them from children and pets, and glue "
           "them in as well."));
}

}  // namespace fitwright
