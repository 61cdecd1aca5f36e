// The coupon's picture in the window: in space by OpenGL, from above without. Pictures go to the folder of the run, or
// to FW_COUPON_PICTURES for looking at them.

#include "window/coupon_view.hpp"

#include <wx/evtloop.h>
#include <wx/frame.h>
#include <wx/image.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <set>

#include "bench/coupon_jaws.hpp"
#include "design/design.hpp"
#include "window/plan_view.hpp"

// Not window/bench.hpp: the main window has no part in this.
namespace window_test {
void pump();
bool pump_until(const std::function<bool()>& condition);
std::string folder();
}  // namespace window_test

using namespace fitwright;

namespace {

constexpr Rgb paper{255, 255, 255}, ink{46, 52, 54}, night{45, 45, 45}, chalk{238, 238, 236};

std::shared_ptr<const CouponScene> scene_of(const std::string& design) {
  static std::map<std::string, std::shared_ptr<const CouponScene>> made;
  auto& scene = made[design];
  if (!scene)
    scene =
        std::make_shared<const CouponScene>(coupon_scene(std::make_shared<const Coupon>(make_coupon(design).value())));
  return scene;
}

std::string pictures() {
  const char* wanted = std::getenv("FW_COUPON_PICTURES");
  const std::string place = wanted ? wanted : window_test::folder() + "/pictures";
  std::filesystem::create_directories(place);
  return place;
}

/// Whether somebody wants to look: then more than the checks need.
bool all_pictures() { return std::getenv("FW_COUPON_PICTURES"); }

/// Keeps a picture for looking at.
void keep(const wxImage& image, const std::string& name) {
  static const bool once = (wxImage::AddHandler(new wxPNGHandler), true);
  REQUIRE(once);
  CHECK(image.SaveFile(wxString(pictures() + "/" + name + ".png"), wxBITMAP_TYPE_PNG));
}

/// Share of pixels that differ by more than a shade.
double difference(const wxImage& a, const wxImage& b) {
  REQUIRE(a.GetSize() == b.GetSize());
  const long pixels = static_cast<long>(a.GetWidth()) * a.GetHeight();
  long different = 0;
  for (long i = 0; i < pixels; ++i) {
    int most = 0;
    for (long k = 0; k < 3; ++k) most = std::max(most, std::abs(a.GetData()[3 * i + k] - b.GetData()[3 * i + k]));
    different += most > 6;
  }
  return static_cast<double>(different) / static_cast<double>(pixels);
}

/// Share of pixels that are not the colour of the first one.
double drawn(const wxImage& image) {
  wxImage blank(image.GetWidth(), image.GetHeight());
  blank.SetRGB(wxRect(image.GetSize()), image.GetRed(0, 0), image.GetGreen(0, 0), image.GetBlue(0, 0));
  return difference(image, blank);
}

/// A frame with the picture in it, on the screen.
struct Shown {
  explicit Shown(bool plan = false) {
    if (plan) setenv("FITWRIGHT_NO_GL", "1", 1);
    frame = new wxFrame(nullptr, wxID_ANY, "coupon", wxDefaultPosition, wxSize(640, 480));
    picture = &make_coupon_picture(frame);
    unsetenv("FITWRIGHT_NO_GL");
    frame->Show();
    REQUIRE(window_test::pump_until([&] { return picture->window().IsShownOnScreen(); }));
    window_test::pump();
  }
  ~Shown() {
    frame->Destroy();
    window_test::pump();
  }
  wxFrame* frame;
  CouponPicture* picture;
};

void press(wxWindow& window, int key, bool shift = false) {
  wxKeyEvent event(wxEVT_CHAR);
  event.m_keyCode = key;
  event.m_shiftDown = shift;
  event.SetEventObject(&window);
  window.GetEventHandler()->ProcessEvent(event);
}

void mouse(wxWindow& window, wxEventType type, int x, int y, bool held = false, bool shift = false, int wheel = 0) {
  wxMouseEvent event(type);
  event.m_x = x, event.m_y = y;
  event.SetLeftDown(held);
  event.SetShiftDown(shift);
  event.m_wheelRotation = wheel, event.m_wheelDelta = 120;
  event.SetEventObject(&window);
  window.GetEventHandler()->ProcessEvent(event);
}

}  // namespace

TEST_CASE("every design is drawn in space, in light and dark, at 1x and 2x, and its features light up",
          "[coupon_view]") {
  const auto [design, features] = GENERATE(table<std::string, std::vector<std::string>>({
      {"frame", {"X40", "SX10", "Y100a", "D1", "SY40"}},
      {"bores", {"H20", "H4", "P12", "H3"}},
      {"walls", {"W45a", "W90b", "PX45"}},
      {"stair", {"Z40", "Z10", "X38", "FY38"}},
  }));
  Shown shown;
  auto* view = dynamic_cast<CouponView*>(shown.picture);
  if (!view) {
    WARN("no OpenGL here: the plan is shown");
    return;
  }
  view->set_scene(scene_of(design));
  REQUIRE(view->in_space());
  for (const bool dark : {false, true}) {
    view->set_theme(dark ? night : paper, dark ? chalk : ink);
    const std::string theme = dark ? "-dark" : "-light";
    view->set_bed(220, 220);
    view->set_turned(dark ? 90 : 0);
    view->show_feature("");
    const wxImage whole = view->picture(800, 600, 1);
    keep(whole, design + theme);
    CHECK(drawn(whole) > 0.02);
    if (all_pictures()) keep(view->picture(1600, 1200, 2), design + theme + "-2x");
    view->set_bed(0, 0);
    view->set_turned(0);
    for (const std::string& id : features) {
      if (dark && id != features.front() && !all_pictures()) continue;
      INFO(design << " " << id);
      view->show_feature(id);
      REQUIRE(view->shown_feature() == id);
      const wxImage lit = view->picture(800, 600, 1);
      keep(lit, design + theme + "-" + id);
      CHECK(drawn(lit) > 0.1);
      CHECK(difference(lit, whole) > 0.05);
    }
    view->set_turned(90);
    keep(view->picture(1600, 1200, 2), design + theme + "-turned-2x");
    view->set_turned(0);
  }
}

TEST_CASE("the plan takes the place of the view in space, in both themes, however the part lies", "[coupon_view]") {
  const std::string design = GENERATE("frame", "bores", "walls", "stair");
  Shown shown(true);
  REQUIRE(dynamic_cast<PlanView*>(shown.picture));
  CouponPicture& plan = *shown.picture;
  plan.set_scene(scene_of(design));
  for (const bool dark : {false, true}) {
    plan.set_theme(dark ? night : paper, dark ? chalk : ink);
    plan.show_feature("");
    plan.set_turned(dark ? 90 : 0);
    const wxImage whole = plan.picture(800, 600, 1);
    keep(whole, design + "-plan" + (dark ? "-dark" : "-light"));
    CHECK(drawn(whole) > 0.05);
    const std::string id = scene_of(design)->features[2].feature.id;
    plan.show_feature(id);
    const wxImage lit = plan.picture(1600, 1200, 2);
    keep(lit, design + "-plan" + (dark ? "-dark" : "-light") + "-lit-2x");
    CHECK(difference(plan.picture(800, 600, 1), whole) > 0.002);
  }
}

TEST_CASE("a feature is found under the pointer, named, and shown by a click", "[coupon_view]") {
  const bool plan_only = GENERATE(false, true);
  Shown shown(plan_only);
  CouponPicture& picture = *shown.picture;
  picture.set_scene(scene_of("bores"));
  wxWindow& window = picture.window();
  window.Refresh();
  window.Update();
  window_test::pump();
  std::string under, said, chosen;
  picture.on_feature = [&](const std::string& id, const std::string& words) { under = id, said = words; };
  picture.on_choose = [&](const std::string& id) { chosen = id; };
  const wxSize size = window.GetClientSize();
  std::set<std::string> found;
  constexpr int step = 12;  // smaller than the smallest peg with its name
  for (int y = 2; y < size.y; y += step)
    for (int x = 2; x < size.x; x += step) {
      mouse(window, wxEVT_MOTION, x, y);
      if (under.empty()) continue;
      found.insert(under);
      CHECK_THAT(said, Catch::StartsWith(under + ", "));
      CHECK_THAT(said, Catch::EndsWith(" mm"));
      if (under != "H20" || !chosen.empty()) continue;
      mouse(window, wxEVT_LEFT_DOWN, x, y);
      mouse(window, wxEVT_LEFT_UP, x, y);
      CHECK(chosen == "H20");
      CHECK(picture.shown_feature() == "H20");
      picture.show_feature("");
      window.Update();
      window_test::pump_until([start = wxGetUTCTimeMillis()] { return wxGetUTCTimeMillis() - start > 160; });
    }
  CHECK(found.size() == scene_of("bores")->features.size());
  mouse(window, wxEVT_LEAVE_WINDOW, 0, 0);
  CHECK(under.empty());
}

TEST_CASE("the view works by keyboard alone", "[coupon_view]") {
  Shown shown;
  auto* view = dynamic_cast<CouponView*>(shown.picture);
  if (!view) return;
  std::vector<std::string> chosen;
  view->on_choose = [&](const std::string& id) { chosen.push_back(id); };
  view->set_scene(scene_of("stair"));
  const Camera whole = view->camera();
  press(*view, WXK_RIGHT);
  CHECK(view->camera().azimuth_rad > whole.azimuth_rad);
  press(*view, WXK_UP);
  CHECK(view->camera().elevation_rad > whole.elevation_rad);
  press(*view, '+');
  CHECK(view->camera().distance_mm < whole.distance_mm);
  press(*view, WXK_LEFT, true);
  CHECK(!(view->camera().target == whole.target));
  press(*view, WXK_HOME);
  CHECK(view->camera() == camera_for_all({0, 0, 0, scene_of("stair")->size},
                                         {double(view->GetClientSize().x), double(view->GetClientSize().y)}));
  press(*view, 'n');
  press(*view, WXK_TAB);
  press(*view, 'p');
  CHECK(chosen == std::vector<std::string>{"X38", "Y38", "X38"});
  CHECK_THAT(view->said(), Catch::Contains("X38, outer, 38.00 mm") && Catch::EndsWith("with outside jaws."));
}

TEST_CASE("dragging turns the view, with Shift moves it, the wheel brings it nearer, a double click fits it",
          "[coupon_view]") {
  Shown shown;
  auto* view = dynamic_cast<CouponView*>(shown.picture);
  if (!view) return;
  bool chosen = false;
  view->on_choose = [&](const std::string&) { chosen = true; };
  view->set_scene(scene_of("stair"));
  const Camera whole = view->camera();
  const auto drag = [&](bool shift) {
    mouse(*view, wxEVT_LEFT_DOWN, 300, 200, true, shift);
    mouse(*view, wxEVT_MOTION, 340, 180, true, shift);
    mouse(*view, wxEVT_LEFT_UP, 340, 180, false, shift);
  };
  drag(false);
  CHECK(view->camera().azimuth_rad < whole.azimuth_rad);  // the part follows the hand
  CHECK(view->camera().elevation_rad < whole.elevation_rad);
  CHECK(view->camera().target == whole.target);
  const Camera turned = view->camera();
  drag(true);
  CHECK(view->camera().azimuth_rad == turned.azimuth_rad);
  CHECK(!(view->camera().target == turned.target));
  mouse(*view, wxEVT_MOUSEWHEEL, 300, 200, false, false, 120);
  CHECK(view->camera().distance_mm < turned.distance_mm);
  CHECK(!chosen);
  mouse(*view, wxEVT_LEFT_DCLICK, 300, 200, true);
  CHECK(view->camera() == whole);
}

TEST_CASE("the second reading of a bore turns the jaws, and tells nobody it is another feature", "[coupon_view]") {
  Shown shown;
  if (!dynamic_cast<CouponView*>(shown.picture)) return;
  shown.picture->set_scene(scene_of("bores"));
  shown.picture->show_feature("H20");
  const wxImage first = shown.picture->picture(400, 300, 1);
  shown.picture->show_feature("H20", true);
  CHECK(difference(first, shown.picture->picture(400, 300, 1)) > 0.01);
  CHECK(shown.picture->shown_feature() == "H20");
}

TEST_CASE("a picture can be asked for before there is a coupon, and of a coupon without features shown twice",
          "[coupon_view]") {
  for (const bool plan : {false, true}) {
    Shown shown(plan);
    CHECK(drawn(shown.picture->picture(320, 240, 1)) == 0);
    CHECK(shown.picture->said() == "No coupon chosen yet.");
    shown.picture->show_feature("X38");  // before its coupon
    shown.picture->set_scene(scene_of("stair"));
    CHECK(shown.picture->shown_feature() == "X38");
    const wxImage first = shown.picture->picture(320, 240, 1);
    CHECK(difference(first, shown.picture->picture(320, 240, 1)) == 0);
    shown.picture->show_feature("no such feature");
    CHECK(shown.picture->shown_feature().empty());
    shown.picture->set_scene(nullptr);
    CHECK(drawn(shown.picture->picture(320, 240, 1)) == 0);
  }
}
