#include "base/result.hpp"

namespace fitwright {

std::string Problem::text() const {
  std::string out;
  if (!where.file.empty()) out += where.file + ':';
  if (where.line > 0) {
    out += std::to_string(where.line) + ':';
    if (where.column > 0) out += std::to_string(where.column) + ':';
  }
  if (!out.empty()) out += ' ';
  out += what;
  if (!remedy.empty()) out += "; " + remedy;
  return out;
}

}  // namespace fitwright
