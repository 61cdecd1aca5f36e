#pragma once
// A PDF to a printer, through the desktop's own print dialogue.

#include <wx/window.h>

#include <string>

#include "base/result.hpp"

namespace fitwright {

/// Asks which printer, with the desktop's dialogue, and sends the PDF there as it is: not scaled. False when the person
/// thought better of it. Errors: Code::io when no printer is set up on this computer, or it does not take the file.
Result<bool> print_pdf(wxWindow* parent, const std::string& title, const std::string& pdf);

}  // namespace fitwright
