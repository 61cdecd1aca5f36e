#include "window/bench.hpp"

#include <wx/dialog.h>
#include <wx/evtloop.h>
#include <wx/modalhook.h>
#include <wx/msgdlg.h>
#include <wx/stattext.h>
#include <wx/textctrl.h>

#include <chrono>
#include <cstdlib>

#include "bench/keeping.hpp"
#include "window/app.hpp"
#include "window/bench.hpp"

namespace window_test {

using fitwright::Frame;

void pump() {
  wxEventLoopBase& loop = *wxEventLoopBase::GetActive();
  wxTheApp->ProcessPendingEvents();
  while (loop.Pending()) loop.Dispatch();
  loop.ProcessIdle();
}

bool pump_until(const std::function<bool()>& condition) {
  const auto end = std::chrono::steady_clock::now() + std::chrono::seconds(10);
  while (!condition()) {
    if (std::chrono::steady_clock::now() > end) return false;
    pump();
    wxEventLoopBase::GetActive()->DispatchTimeout(5);
  }
  pump();
  return condition();
}

bool settled(Frame& frame) {
  return pump_until([&] { return frame.up_to_date(); });
}

std::string folder() { return std::getenv("FW_WINDOW_TEST_FOLDER"); }

Frame& fresh_frame() {
  Frame& frame = *static_cast<fitwright::App*>(wxTheApp)->frame();
  frame.put_on_bench(fitwright::demo_document());
  frame.understanding().tabs().SetSelection(0);
  frame.go_to(fitwright::Stage::measure);
  settled(frame);
  frame.measuring().grid().go_to(0);
  pump();
  return frame;
}

void choose(Frame& frame, int action) {
  wxCommandEvent event(wxEVT_MENU, action);
  frame.GetEventHandler()->ProcessEvent(event);
}

class Dialogs::Hook : public wxModalDialogHook {
 public:
  explicit Hook(int answer) : answer_(answer) { Register(); }
  ~Hook() override { Unregister(); }

  int Enter(wxDialog* dialog) override {
    ++count;
    text = fitwright::utf8(dialog->GetTitle());
    for (wxWindow* child : dialog->GetChildren()) {
      if (const auto* words = dynamic_cast<wxStaticText*>(child)) text += "\n" + fitwright::utf8(words->GetLabel());
      if (const auto* lines = dynamic_cast<wxTextCtrl*>(child)) text += "\n" + fitwright::utf8(lines->GetValue());
    }
    if (const auto* message = dynamic_cast<wxMessageDialog*>(dialog))
      text += "\n" + fitwright::utf8(message->GetMessage());
    return answer_;
  }

  int count = 0;
  std::string text;

 private:
  int answer_;
};

Dialogs::Dialogs(int answer) : hook_(std::make_unique<Hook>(answer)) {}
Dialogs::~Dialogs() = default;
int Dialogs::count() const { return hook_->count; }
std::string Dialogs::text() const { return hook_->text; }

}  // namespace window_test
