#include "window/print_pdf.hpp"

#include <glib/gstdio.h>
#include <gtk/gtk.h>
#include <gtk/gtkunixprint.h>

#include <filesystem>
#include <memory>

#include "base/file.hpp"
#include "base/words.hpp"

namespace fitwright {
namespace {

struct Unref {
  void operator()(gpointer object) const { g_object_unref(object); }
};

Problem not_printed(const std::string& what) {
  return {Code::io, {}, what, tr("save the sheet, and print it elsewhere at full size")};
}

/// Whether there is a printer beside "print to a file".
bool printer_there() {
  bool found = false;
  const auto look = [](GtkPrinter* printer, gpointer answer) -> gboolean {
    if (gtk_printer_is_virtual(printer)) return FALSE;
    *static_cast<bool*>(answer) = true;
    return TRUE;  // seen enough
  };
  gtk_enumerate_printers(look, &found, nullptr, TRUE);
  return found;
}

/// A file that is there until the printer has it.
class Spooled {
 public:
  explicit Spooled(std::string path) : path_(std::move(path)) {}
  ~Spooled() {
    std::error_code ignored;
    std::filesystem::remove(path_, ignored);
  }
  Spooled(const Spooled&) = delete;
  Spooled& operator=(const Spooled&) = delete;
  [[nodiscard]] const std::string& path() const { return path_; }

 private:
  std::string path_;
};

Result<std::unique_ptr<Spooled>> spooled(const std::string& pdf) {
  gchar* name = nullptr;
  GError* error = nullptr;
  const int file = g_file_open_tmp("fitwright-XXXXXX.pdf", &name, &error);
  if (file < 0) {
    g_error_free(error);
    return not_printed(tr("the sheet could not be put ready for the printer"));
  }
  g_close(file, nullptr);
  auto out = std::make_unique<Spooled>(name);
  g_free(name);
  if (auto written = write_whole(out->path(), pdf); !written) return written.problems();
  return out;
}

}  // namespace

Result<bool> print_pdf(wxWindow* parent, const std::string& title, const std::string& pdf) {
  if (!printer_there()) return not_printed(tr("no printer is set up on this computer"));
  auto file = spooled(pdf);
  if (!file) return file.problems();
  GtkWidget* above = gtk_widget_get_toplevel(static_cast<GtkWidget*>(parent->GetHandle()));
  GtkWidget* dialog = gtk_print_unix_dialog_new(title.c_str(), GTK_WINDOW(above));
  auto* asked = GTK_PRINT_UNIX_DIALOG(dialog);
  const bool yes = gtk_dialog_run(GTK_DIALOG(dialog)) == GTK_RESPONSE_OK;
  GtkPrinter* printer = yes ? gtk_print_unix_dialog_get_selected_printer(asked) : nullptr;
  std::unique_ptr<GtkPrintJob, Unref> job;
  if (printer) {
    const std::unique_ptr<GtkPrintSettings, Unref> settings(gtk_print_unix_dialog_get_settings(asked));
    constexpr double full_size_percent = 100;
    gtk_print_settings_set_scale(settings.get(), full_size_percent);
    job.reset(gtk_print_job_new(title.c_str(), printer, settings.get(), gtk_print_unix_dialog_get_page_setup(asked)));
  }
  gtk_widget_destroy(dialog);
  if (!job) return false;
  GError* error = nullptr;
  if (!gtk_print_job_set_source_file(job.get(), (*file)->path().c_str(), &error)) {
    g_error_free(error);
    return not_printed(tr("the printer does not take the sheet"));
  }
  const auto done = [](GtkPrintJob*, gpointer, const GError*) {};
  const auto forget = [](gpointer spool) { delete static_cast<Spooled*>(spool); };
  gtk_print_job_send(job.get(), done, file->release(), forget);
  return true;
}

}  // namespace fitwright
