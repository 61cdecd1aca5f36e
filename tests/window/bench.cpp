#include "window/bench.hpp"

#include <wx/dialog.h>
#include <wx/evtloop.h>
#include <wx/modalhook.h>
#include <wx/msgdlg.h>
#include <wx/stattext.h>
#include <wx/textctrl.h>

#include <chrono>
#include <cstdlib>
#include <stdexcept>

#include "bench/keeping.hpp"
#include "correct/state.hpp"
#include "design/design.hpp"
#include "record/store.hpp"
#include "window/app.hpp"
#include "window/bench.hpp"

namespace window_test {

using namespace fitwright;

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
  frame.measuring().field().Clear();
  pump();
  return frame;
}

record::Id put_setup_in(record::Record& record, int copies) {
  record::Setup setup;
  record::Printer printer;
  printer.name = "Heron";
  record::Material material;
  material.name = "PLA";
  record::Spool spool;
  spool.name = "PLA slate, batch 14";
  spool.material = record::add(record, material).value().thing;
  setup.name = "Heron with slate";
  setup.printer = record::add(record, printer).value().thing;
  setup.spool = record::add(record, spool).value().thing;
  setup.state = to_json(State{});
  const record::Id id = record::add(record, setup).value().thing;
  record::MadeCoupon made;
  made.design = "frame";
  made.parameters = "{}";
  made.features = features_csv(make_coupon("frame").value());
  record::Copy copy;
  copy.setup = id;
  copy.coupon = record::add(record, made).value().thing;
  copy.state = setup.state;
  copy.printed_on = "2026-11-25";
  for (copy.print = 1; copy.print <= copies; ++copy.print) {
    copy.turned_deg = copy.print == 2 ? 90 : 0;
    (void)record::add(record, copy).value();
  }
  return id;
}

Frame& frame_with_setup(int copies) {
  Frame& frame = fresh_frame();
  const record::Id id = put_setup_in(frame.bench().record(), copies);
  if (!frame.put_setup(id)) throw std::logic_error("the setup of the tests cannot be put on the bench");
  frame.go_to(Stage::measure);
  settled(frame);
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
