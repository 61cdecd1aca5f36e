#include "report/finding_report.hpp"

#include "report/layout.hpp"

namespace fitwright {
namespace {

constexpr std::string_view indent = "          ";  // as wide as the widest label

std::string_view label(Severity severity) {
  switch (severity) {
    case Severity::act:
      return "  Act     ";
    case Severity::know:
      return "  Know    ";
    case Severity::fine:
      return "  Fine    ";
  }
  return indent;
}

}  // namespace

std::string findings_text(const std::vector<Finding>& findings) {
  std::string out;
  for (const Finding& finding : findings) {
    out += paragraph(finding.text, label(finding.severity), indent);
    if (!finding.because.empty()) out += paragraph("Because: " + finding.because, indent, indent);
    if (!finding.action.empty()) out += paragraph("Do: " + finding.action, indent, indent);
  }
  return out;
}

}  // namespace fitwright
