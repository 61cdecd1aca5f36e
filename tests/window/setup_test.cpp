// First start, Setup and Make: from an empty record to a coupon on the bench, by keyboard.

#include <wx/config.h>
#include <wx/evtloop.h>
#include <wx/uiaction.h>

#include <catch2/catch.hpp>

#include "base/file.hpp"
#include "mesh/mesh.hpp"
#include "window/actions.hpp"
#include "window/bench.hpp"

using namespace fitwright;
using namespace window_test;

namespace {

/// A window of its own on a record in memory that holds nothing yet.
class FirstStart {
 public:
  FirstStart() : frame_(new Frame(Bench(record::record_in_memory()))) {
    frame_->Show();
    frame_->Raise();
    frame_->go_to(Stage::setup);
    pump();
  }
  ~FirstStart() {
    frame_->Destroy();
    pump();
  }
  Frame* operator->() { return frame_; }
  Frame& operator*() { return *frame_; }

 private:
  Frame* frame_;
};

void press(int key, int modifiers = 0) {
  wxUIActionSimulator().Char(key, modifiers);
  pump();
}

/// Goes on by Tab until the focus is on `window`.
bool tab_to(wxWindow& window) {
  constexpr int most = 60;
  for (int i = 0; i < most; ++i) {
    if (window.HasFocus()) return true;
    const wxWindow* before = wxWindow::FindFocus();
    press(WXK_TAB);
    // Some controls have two stops: then the focus stays where it is for wx.
    constexpr int turns = 20;
    for (int turn = 0; turn < turns && wxWindow::FindFocus() == before; ++turn) {
      pump();
      wxEventLoopBase::GetActive()->DispatchTimeout(5);
    }
  }
  return window.HasFocus();
}

/// Types into a field as a person does, and leaves it by Enter.
void type_into(wxTextCtrl& field, const std::string& text) {
  field.SetFocus();
  REQUIRE(pump_until([&] { return field.HasFocus(); }));
  field.SelectAll();
  wxUIActionSimulator keys;
  keys.Text(text.c_str());
  REQUIRE(pump_until([&] { return utf8(field.GetValue()) == text; }));
  press(WXK_RETURN);
}

}  // namespace

TEST_CASE("first start: Enter takes the defaults, and by keyboard a coupon lies on the bench", "[setup]") {
  FirstStart frame;
  REQUIRE(frame->setting_up().asking());
  REQUIRE(pump_until([] { return wxWindow::FindFocus() != nullptr; }));
  press(WXK_RETURN);
  REQUIRE(pump_until([&] { return frame->place() == Stage::make; }));
  CHECK_FALSE(frame->setting_up().asking());
  REQUIRE(frame->bench().setup());
  CHECK(frame->bench().setup()->setup.value.name == "My printer, PLA");
  CHECK(frame->bench().caliper());
  REQUIRE(pump_until([&] { return frame->making().up_to_date(); }));
  REQUIRE(frame->making().coupon());
  REQUIRE(tab_to(frame->making().printed_button()));
  press(WXK_SPACE);
  REQUIRE(pump_until([&] { return frame->place() == Stage::measure; }));
  CHECK(record::all<record::Copy>(frame->bench().record())->size() == 1);
  CHECK(frame->document().content().measuring.plan);
  // Undo takes the print back; again it is there.
  choose(*frame, act_undo);
  CHECK(record::all<record::Copy>(frame->bench().record())->empty());
  choose(*frame, act_redo);
  CHECK(record::all<record::Copy>(frame->bench().record())->size() == 1);
  // The second copy is proposed turned.
  frame->go_to(Stage::make);
  REQUIRE(pump_until([&] { return frame->making().up_to_date(); }));
  CHECK(frame->making().turned().GetSelection() == 1);
}

TEST_CASE("a wrong answer is told beside its field and nothing is begun", "[setup]") {
  FirstStart frame;
  StartPage& page = frame->setting_up().questions();
  auto& bed = *dynamic_cast<wxTextCtrl*>(wxWindow::FindWindowByName("Bed along X", &page));
  type_into(bed, "wide");
  CHECK_FALSE(page.beside("bed_x").empty());
  CHECK(frame->setting_up().asking());
  CHECK(record::all<record::Setup>(frame->bench().record())->empty());
  type_into(bed, "180 mm");
  REQUIRE(pump_until([&] { return frame->place() == Stage::make; }));
  CHECK(frame->bench().setup()->printer.value.bed_x_mm == 180);
}

TEST_CASE("the demo is one key away from the first start", "[setup]") {
  FirstStart frame;
  REQUIRE(tab_to(*wxWindow::FindWindowByName("Look around in the demo", &frame->setting_up().questions())));
  press(WXK_SPACE);
  REQUIRE(pump_until([&] { return frame->place() == Stage::understand; }));
}

TEST_CASE("forms: kept on leaving the field, refused beside it, taken back by undo", "[setup]") {
  FirstStart frame;
  press(WXK_RETURN);
  REQUIRE(pump_until([&] { return frame->bench().setup().has_value(); }));
  frame->go_to(Stage::setup);
  pump();
  FieldSet& printer = frame->setting_up().form("printer").fields();
  type_into(printer.field("name"), "Heron");
  CHECK(frame->bench().setup()->printer.value.name == "Heron");
  type_into(printer.field("bed_x_mm"), "200");
  CHECK(utf8(printer.field("bed_x_mm").GetValue()) == "200 mm");
  type_into(printer.field("bed_y_mm"), "far");
  CHECK(printer.beside("bed_y_mm").find("\"far\"") != std::string::npos);
  CHECK(frame->bench().setup()->printer.value.bed_y_mm == 220);
  type_into(frame->setting_up().axes().field("x.pitch"), "2");
  type_into(frame->setting_up().axes().field("x.teeth"), "20");
  CHECK_FALSE(frame->bench().setup()->printer.value.drive.empty());
  for (int i = 0; i < 4; ++i) frame->undo();
  CHECK(frame->bench().setup()->printer.value.name == "My printer");
  CHECK(frame->bench().setup()->printer.value.bed_x_mm == 220);
  CHECK(frame->bench().setup()->printer.value.drive.empty());
  frame->redo();
  CHECK(frame->bench().setup()->printer.value.name == "Heron");
}

TEST_CASE("the caliper's log: a zero read goes in, nonsense does not, undo takes it out", "[setup]") {
  FirstStart frame;
  press(WXK_RETURN);
  REQUIRE(pump_until([&] { return frame->bench().setup().has_value(); }));
  frame->go_to(Stage::setup);
  pump();
  SetupPlace& setup = frame->setting_up();
  const auto steel = [&] { return record::all<record::SteelReading>(frame->bench().record())->size(); };
  type_into(setup.steel_reading(), "none");
  CHECK(steel() == 0);
  type_into(setup.steel_reading(), "0,01");
  CHECK(steel() == 1);
  REQUIRE_FALSE(setup.shown().caliper_log.empty());
  CHECK(setup.shown().caliper_log.front().find("+0.010 mm") != std::string::npos);
  frame->undo();
  CHECK(steel() == 0);
}

TEST_CASE("Make: what is typed is checked beside the field, and the file saved is the coupon's", "[make]") {
  FirstStart frame;
  press(WXK_RETURN);
  REQUIRE(pump_until([&] { return frame->place() == Stage::make; }));
  MakePlace& make = frame->making();
  FieldSet& fields = make.form().fields();
  type_into(fields.field("side_mm"), "400");
  REQUIRE(pump_until([&] { return make.up_to_date(); }));
  CHECK_FALSE(fields.beside("side_mm").empty());
  CHECK_FALSE(make.coupon());
  type_into(fields.field("side_mm"), "80 mm");
  REQUIRE(pump_until([&] { return make.up_to_date() && make.coupon(); }));
  CHECK(make.coupon()->size_x_mm == 80);
  const std::string path = folder() + "/frame.stl";
  REQUIRE(make.save(path));
  CHECK(read_whole(path).value() == to_stl(mesh_of(make.coupon()->solid)));
  CHECK(make.save_sheet(folder() + "/sheet.pdf"));
  CHECK(read_whole(folder() + "/sheet.pdf").value().starts_with("%PDF"));
  CHECK_FALSE(make.save(folder() + "/no/such/frame.stl"));
  CHECK_FALSE(make.told().empty());
  // Another question, another coupon.
  make.questions()[1]->SetValue(true);
  wxCommandEvent chosen(wxEVT_RADIOBUTTON, make.questions()[1]->GetId());
  chosen.SetEventObject(make.questions()[1]);
  make.questions()[1]->GetEventHandler()->ProcessEvent(chosen);
  REQUIRE(pump_until([&] { return make.up_to_date() && make.coupon(); }));
  CHECK(make.coupon()->design == "bores");
}
