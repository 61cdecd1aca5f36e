#include "window/frame.hpp"

#include <wx/config.h>
#include <wx/display.h>

#include <algorithm>
#include <exception>
#include <utility>

#include "base/file.hpp"
#include "base/words.hpp"
#include "bench/keeping.hpp"
#include "bench/shown.hpp"
#include "reading/csv.hpp"
#include "window/actions.hpp"
#include "window/bench_start.hpp"
#include "window/messages.hpp"
#include "window/unit.hpp"

namespace fitwright {
namespace {

const wxSize usual_size(1240, 780);
constexpr int recent_records = act_recent_last - act_recent + 1;

/// The view of a content. A defect of ours must not take the readings down with it: it is told in the findings' place.
BenchView computed(const Content& content, std::uint64_t revision, const std::vector<Finding>& of_record) {
  try {
    return bench_view(content, analyse(content, revision), of_record);
  } catch (const std::exception& fault) {
    BenchView view;
    view.revision = revision;
    view.no_findings =
        said("A defect of this program: the readings could not be worked out ({}). They are safe and can be saved.",
             fault.what());
    return view;
  }
}

}  // namespace

Frame::Frame(Bench bench)
    : wxFrame(nullptr, wxID_ANY, "Fitwright"), bench_(std::move(bench)), recent_(recent_records, act_recent) {
  {
    const wxConfigPathChanger in_recent(wxConfigBase::Get(), "/recent/");
    recent_.Load(*wxConfigBase::Get());
  }
  SetSize(FromDIP(usual_size));  // before the parts are made: none is ever asked to fit into nothing
  build();
  if (auto folder = data_folder()) data_folder_ = *folder;
  bench_.use_inches(in_inches());
  Bind(wxEVT_MENU, &Frame::on_action, this);
  Bind(wxEVT_UPDATE_UI, &Frame::on_update, this);
  Bind(wxEVT_CHAR_HOOK, &Frame::on_char_hook, this);
  Bind(wxEVT_CLOSE_WINDOW, &Frame::on_close, this);
  offer_->Bind(wxEVT_BUTTON, &Frame::on_offer, this);
  restore_place();
  bench_changed();
  go_to(place_);
}

Frame::~Frame() = default;

void Frame::put_on_bench(Document document) {
  bench_.put_loose(std::move(document));
  side_file_kept_ = false;
  problem_.clear();
  bench_changed();
  offer_left_behind();
}

void Frame::put_demo() {
  bench_ = demo_bench();
  bench_.use_inches(in_inches());
  offer_->Dismiss();
  left_behind_.reset();
  problem_.clear();
  view_ = BenchView{};
  bench_changed();
}

bool Frame::put_setup(const record::Id& setup) {
  if (auto put = bench_.put_setup(setup); !put) {
    tell_problems(this, tr("This setup cannot be put on the bench"), put.problems());
    return false;
  }
  offer_->Dismiss();
  left_behind_.reset();
  problem_.clear();
  bench_changed();
  return true;
}

void Frame::bench_changed() {
  for (const Shown& shown : shown_) shown.panel->bench_changed();
  document_changed();
  remember_bench();
}

bool Frame::open(const std::string& path) {
  auto opened = open_document(path);
  if (!opened) {
    tell_problems(this, tr("These readings cannot be opened"), opened.problems());
    return false;
  }
  put_on_bench(*std::move(opened));
  return true;
}

bool Frame::open_record(const std::string& path) {
  auto opened = bench_on_file(path);
  if (!opened) {
    tell_problems(this, tr("This record cannot be opened"), opened.problems());
    return false;
  }
  bench_ = std::move(*opened);
  bench_.use_inches(in_inches());
  offer_->Dismiss();
  left_behind_.reset();
  problem_.clear();
  view_ = BenchView{};
  bench_changed();
  recent_.AddFileToHistory(wx(path));
  const wxConfigPathChanger in_recent(wxConfigBase::Get(), "/recent/");
  recent_.Save(*wxConfigBase::Get());
  say(said("Opened the record {}.", path));
  return true;
}

void Frame::take_file(const std::string& path) {
  if (is_record_file(path)) {
    if (may_leave()) open_record(path);
    return;
  }
  if (!bench_.setup()) {
    if (may_leave()) open(path);
    return;
  }
  go_to(Stage::measure);
  measure_->offer_file(path);
}

bool Frame::save_to(const std::string& path) {
  if (const auto saved = save_readings(*document().content().readings, path); !saved) {
    tell_problems(this, tr("The readings were not saved"), saved.problems());
    return false;
  }
  const std::size_t read = document().content().readings->rows.size();
  keep_side_file();
  bench_.mark_saved(path);
  keep_side_file();
  say(said_many("Saved {} reading.", "Saved {} readings.", read));
  show_header();
  return true;
}

PlacePanel& Frame::panel() const {
  for (const Shown& shown : shown_)
    if (shown.place == place_) return *shown.panel;
  return *shown_.front().panel;
}

bool Frame::make(Result<Edit> edit) {
  problem_ = edit ? std::string() : in_one_line(edit.problems());
  panel().refused(problem_);
  if (!edit) return false;
  const std::string sentence = edit->said;
  bench_.apply(*std::move(edit));
  if (!sentence.empty()) say(sentence);
  document_changed();
  return true;
}

void Frame::go_to(Stage place) {
  for (std::size_t page = 0; page < shown_.size(); ++page) {
    if (shown_[page].place != place) continue;
    place_ = place;
    book_->SetSelection(page);
    side_->choose(place);
    shown_[page].panel->take_focus();
  }
  remember_bench();
}

void Frame::go_to_reading(std::size_t row) {
  go_to(Stage::measure);
  measure_->go_to(row);
}

void Frame::say(const std::string& sentence) { SetStatusText(wx(sentence)); }

void Frame::undo() {
  step(noted("Taken back: {}"), bench_.undo_label(), [this] { return bench_.undo(); });
}
void Frame::redo() {
  step(noted("Done again: {}"), bench_.redo_label(), [this] { return bench_.redo(); });
}

void Frame::step(const char* sentence, const std::string& label, const std::function<Result<Done>()>& take) {
  if (label.empty()) return;
  problem_.clear();
  if (const auto taken = take(); !taken) {
    problem_ = in_one_line(taken.problems());
    panel().refused(problem_);
    return;
  }
  say(fmt::format(fmt::runtime(tr(sentence)), label));
  bench_changed();
}

/// Everything that follows from a new content: the places at once, the rest when it is computed.
void Frame::document_changed() {
  show_header();
  for (const Shown& shown : shown_) shown.panel->content_changed();
  show_places();
  keep_side_file();
  recompute();
}

void Frame::show_header() {
  const BenchHeader header = bench_header(bench_, "Fitwright");
  SetTitle(wx(header.title));
  header_->changed(header.said);
}

void Frame::show_places() {
  std::vector<PlaceLine> lines;
  for (PlaceLine& line : place_lines(bench_, view_))
    if (std::any_of(shown_.begin(), shown_.end(), [&](const Shown& s) { return s.place == line.place; }))
      lines.push_back(std::move(line));
  side_->show(lines);
  side_->choose(place_);
}

void Frame::recompute() {
  computing_.start(
      [this, content = document().content(), revision = document().revision(), of_record = bench_.of_record()] {
        auto view = std::make_shared<const BenchView>(computed(content, revision, of_record));
        CallAfter([this, view] { take(view); });
      });
}

void Frame::take(std::shared_ptr<const BenchView> view) {
  if (view->revision != document().revision()) return;  // stale: another one is on its way
  view_ = *view;
  for (const Shown& shown : shown_) shown.panel->view_changed();
  show_places();
  SetStatusText(wx(view_.status), 1);
}

/// Keeps what is not saved in the side file, on the second thread; removes it once there is nothing unsaved.
void Frame::keep_side_file() {
  if (data_folder_.empty() || bench_.setup()) return;  // what belongs to a setup is in the record
  const std::string file = side_file(data_folder_, document().path());
  if (document().dirty()) {
    side_file_kept_ = true;
    keeping_.start([file, readings = document().content().readings] {
      (void)write_whole(file,
                        to_csv(only_read(*readings)));  // the next change tries again; saving reports its own error
    });
  } else if (side_file_kept_) {
    side_file_kept_ = false;
    keeping_.start([file] { forget(file); });
  }
}

void Frame::offer_left_behind() {
  offer_->Dismiss();
  left_behind_.reset();
  if (data_folder_.empty()) return;
  left_behind_ = left_behind(side_file(data_folder_, document().path()), *document().content().readings);
  if (left_behind_)
    offer_->ShowMessage(wx(tr("Changes that were never saved are left of an earlier time with these readings.")),
                        wxICON_INFORMATION);
}

void Frame::on_offer(wxCommandEvent& event) {
  offer_->Dismiss();
  if (!left_behind_) return;
  if (event.GetId() == wxID_YES) {
    auto measuring = evening_of_file(*left_behind_);
    if (measuring)
      make(Edit{with_measuring(document().content(), *std::move(measuring)), tr("taking unsaved readings"),
                tr("Unsaved readings taken; undo brings the file's back")});
    else
      make(measuring.problems());
  } else if (event.GetId() == wxID_NO) {
    forget(side_file(data_folder_, document().path()));
  }
  left_behind_.reset();
}

void Frame::restore_place() {
  wxConfigBase& config = *wxConfigBase::Get();
  const wxSize screen =
      wxDisplay(wxDisplay::GetFromWindow(this) == wxNOT_FOUND ? 0u
                                                              : static_cast<unsigned>(wxDisplay::GetFromWindow(this)))
          .GetClientArea()
          .GetSize();
  const wxSize usual = FromDIP(usual_size);
  const long width = config.ReadLong("/window/width", usual.x);
  const long height = config.ReadLong("/window/height", usual.y);
  SetSize(std::min(static_cast<int>(width), screen.x), std::min(static_cast<int>(height), screen.y));
  if (config.ReadBool("/window/maximised", false)) Maximize();
  Layout();
  const long place = config.ReadLong("/window/place", static_cast<long>(Stage::measure));
  for (const Shown& shown : shown_)
    if (static_cast<long>(shown.place) == place) place_ = shown.place;
}

void Frame::remember_place() {
  wxConfigBase& config = *wxConfigBase::Get();
  config.Write("/window/maximised", IsMaximized());
  if (!IsMaximized()) {
    config.Write("/window/width", static_cast<long>(GetSize().x));
    config.Write("/window/height", static_cast<long>(GetSize().y));
  }
  remember_bench();
}

/// At every change: a program that ends without a word is found again where it was.
void Frame::remember_bench() {
  wxConfigBase& config = *wxConfigBase::Get();
  config.Write("/window/place", static_cast<long>(place_));
  if (bench_.setup() && !bench_.demo()) config.Write("/bench/setup", wx(bench_.setup()->setup.thing.text));
  if (bench_.caliper()) config.Write("/bench/caliper", wx(bench_.caliper()->thing.text));
  config.Flush();
}

}  // namespace fitwright
