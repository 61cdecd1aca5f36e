#include "window/keyboard.hpp"

#include <wx/combobox.h>
#include <wx/evtloop.h>
#include <wx/textctrl.h>

#include <memory>
#include <stdexcept>

#include "window/bench.hpp"
#include "window/theme.hpp"

// Last: their macros would break other headers.
#include <X11/Xatom.h>
#include <X11/Xlib.h>
#include <X11/extensions/XTest.h>
#include <X11/keysym.h>

namespace window_test {
namespace {

class Keyboard {
 public:
  Keyboard() : display_(XOpenDisplay(nullptr)) {
    if (!display_) throw std::runtime_error("the keyboard of the tests has no display");
  }
  ~Keyboard() { XCloseDisplay(display_); }
  Keyboard(const Keyboard&) = delete;
  Keyboard& operator=(const Keyboard&) = delete;

  void press(KeySym symbol, unsigned held, unsigned long after_ms) {
    const KeyCode code = XKeysymToKeycode(display_, symbol);
    if (code == 0) throw std::runtime_error("no such key: " + std::to_string(symbol));
    if (symbol_of(code, 0) != symbol && symbol_of(code, 1) == symbol) held |= shift_key;
    unsigned long wait = after_ms;
    for (const auto& [flag, modifier] : modifiers)
      if (held & flag) {
        XTestFakeKeyEvent(display_, XKeysymToKeycode(display_, modifier), True, wait);
        wait = 0;
      }
    XTestFakeKeyEvent(display_, code, True, wait);
    XTestFakeKeyEvent(display_, code, False, 0);
    for (const auto& [flag, modifier] : modifiers)
      if (held & flag) XTestFakeKeyEvent(display_, XKeysymToKeycode(display_, modifier), False, 0);
    XSync(display_, False);
  }

  bool focus_window_of(unsigned long pid) {
    // A window may be gone between two questions about it.
    const auto usual = XSetErrorHandler([](Display*, XErrorEvent*) { return 0; });
    const Window window = window_of(DefaultRootWindow(display_), pid);
    XSync(display_, False);
    XSetErrorHandler(usual);
    if (window == 0) return false;
    XSetInputFocus(display_, window, RevertToPointerRoot, CurrentTime);
    XSync(display_, False);
    return true;
  }

 private:
  /// The viewable window below `parent` that says it belongs to the process; 0 when there is none.
  Window window_of(Window parent, unsigned long pid) {
    Window root = 0, above = 0, *children = nullptr;
    unsigned count = 0;
    if (!XQueryTree(display_, parent, &root, &above, &children, &count)) return 0;
    const std::unique_ptr<Window, int (*)(void*)> list(children, XFree);
    for (unsigned i = 0; i < count; ++i) {
      XWindowAttributes attributes;
      if (XGetWindowAttributes(display_, children[i], &attributes) && attributes.map_state == IsViewable &&
          pid_of(children[i]) == pid)
        return children[i];
      if (const Window below = window_of(children[i], pid)) return below;
    }
    return 0;
  }

  unsigned long pid_of(Window window) {
    Atom type = 0;
    int format = 0;
    unsigned long items = 0, after = 0;
    unsigned char* bytes = nullptr;
    const Atom wanted = XInternAtom(display_, "_NET_WM_PID", False);
    if (XGetWindowProperty(display_, window, wanted, 0, 1, False, XA_CARDINAL, &type, &format, &items, &after,
                           &bytes) != Success)
      return 0;
    const std::unique_ptr<unsigned char, int (*)(void*)> held(bytes, XFree);
    return items == 1 ? *reinterpret_cast<unsigned long*>(bytes) : 0;
  }

  static constexpr std::pair<unsigned, KeySym> modifiers[] = {
      {ctrl_key, XK_Control_L}, {alt_key, XK_Alt_L}, {shift_key, XK_Shift_L}};
  Display* display_;

  [[nodiscard]] KeySym symbol_of(KeyCode code, int level) const {
    int per_code = 0;
    const std::unique_ptr<KeySym, int (*)(void*)> symbols(XGetKeyboardMapping(display_, code, 1, &per_code), XFree);
    return level < per_code ? symbols.get()[level] : NoSymbol;
  }
};

Keyboard& keyboard() {
  static Keyboard the_one;
  return the_one;
}

/// Waits until the focus is elsewhere; some controls have two stops of Tab, then it stays where it is for wx.
void wait_for_other_focus(const wxWindow* before) {
  constexpr int turns = 20;
  for (int turn = 0; turn < turns && wxWindow::FindFocus() == before; ++turn) {
    pump();
    wxEventLoopBase::GetActive()->DispatchTimeout(5);
  }
}

}  // namespace

bool focus_window_of(int pid) { return keyboard().focus_window_of(static_cast<unsigned long>(pid)); }

void press_key(const std::string& name, unsigned held, unsigned after_ms) {
  const KeySym symbol = XStringToKeysym(name.c_str());
  if (symbol == NoSymbol) throw std::runtime_error("no such key: " + name);
  keyboard().press(symbol, held, after_ms);
  pump();
}

void type_text(const std::string& text) {
  for (const char c : text) keyboard().press(static_cast<KeySym>(c), no_key, 0);  // X names ASCII by its codes
  pump();
}

std::string focus_name() {
  const wxWindow* focus = wxWindow::FindFocus();
  if (!focus) return {};
  return fitwright::utf8(focus->GetName());
}

namespace {
std::string path_of_tabs;
}  // namespace

std::string tab_path() { return path_of_tabs; }

bool tab_to(const std::string& name, bool backwards) {
  constexpr int most = 80;
  path_of_tabs.clear();
  for (int i = 0; i < most; ++i) {
    if (focus_name() == name) return true;
    path_of_tabs += focus_name() + " > ";
    const wxWindow* before = wxWindow::FindFocus();
    press_key("Tab", backwards ? shift_key : no_key);
    wait_for_other_focus(before);
  }
  return focus_name() == name;
}

bool type_over(const std::string& text) {
  press_key("a", ctrl_key);
  type_text(text);
  auto* focus = wxWindow::FindFocus();
  const auto holds = [&] {
    if (const auto* box = dynamic_cast<wxComboBox*>(focus)) return fitwright::utf8(box->GetValue()) == text;
    if (const auto* field = dynamic_cast<wxTextCtrl*>(focus)) return fitwright::utf8(field->GetValue()) == text;
    return false;
  };
  return pump_until(holds);
}

}  // namespace window_test
