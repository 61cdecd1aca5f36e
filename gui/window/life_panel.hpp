#pragma once
// The corrections of the setup on the bench and their lives: mark applied, prove, withdraw.

#include <wx/button.h>
#include <wx/dataview.h>
#include <wx/panel.h>
#include <wx/stattext.h>
#include <wx/textctrl.h>

#include <functional>
#include <optional>
#include <vector>

#include "bench/correcting.hpp"
#include "window/page.hpp"
#include "window/plot_panel.hpp"

namespace fitwright {

/// All of one correction, in lines.
class LifePage : public Page {
 public:
  explicit LifePage(wxWindow* parent);
  void show(std::vector<std::string> strong, std::vector<std::string> lines);

 protected:
  void lay(Sheet& sheet) override;
  [[nodiscard]] std::string as_text() const override;

 private:
  std::vector<std::string> strong_, lines_;
};

class LifePanel : public wxPanel {
 public:
  explicit LifePanel(wxWindow* parent);

  void show(const std::vector<LifeRow>& rows);
  /// Shows what applying would do, with its cautions; a second press does it.
  void ask(const Applying& applying);
  /// What was done or found, or why not; in place of the question.
  void tell(const std::vector<std::string>& lines);
  void done_asking();
  /// The verdict on the correction that is chosen, with its figures.
  void show_proof(const ProofTold& told);
  /// Whether there is anything that could be marked as applied.
  void can_propose(bool can);
  [[nodiscard]] const std::optional<Applying>& asked() const { return asked_; }
  /// The correction chosen in the list, or null.
  [[nodiscard]] const LifeRow* chosen() const;
  [[nodiscard]] std::string reason() const;
  wxDataViewListCtrl& list() { return *list_; }
  wxTextCtrl& reason_field() { return *reason_; }
  LifePage& page() { return *page_; }
  PlotPanel& proof() { return *proof_; }

  std::function<void()> on_propose;                     ///< "Mark applied": of what the page shows
  std::function<void()> on_apply;                       ///< the second press
  std::function<void(const LifeRow&)> on_apply_chosen;  ///< one that stands as proposed
  std::function<void(const LifeRow&)> on_prove, on_withdraw;

 private:
  void enable();
  void show_chosen();
  void arrange();
  wxButton* button(wxSizer* row, const char* label, const char* said, std::function<void()> press);

  std::vector<LifeRow> rows_;
  std::optional<Applying> asked_;
  wxDataViewListCtrl* list_;
  LifePage* page_;
  PlotPanel* proof_;
  bool can_propose_ = false;
  wxStaticText* words_;
  wxStaticText* because_;
  wxTextCtrl* reason_;
  wxButton *propose_, *yes_, *no_, *apply_, *prove_, *withdraw_;
};

}  // namespace fitwright
