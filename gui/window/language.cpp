#include "window/language.hpp"

#include <langinfo.h>
#include <wx/config.h>
#include <wx/filename.h>
#include <wx/intl.h>
#include <wx/stdpaths.h>
#include <wx/translation.h>

#include <array>
#include <clocale>
#include <cstdlib>
#include <mutex>
#include <sstream>
#include <unordered_map>

#include "base/words.hpp"
#include "window/theme.hpp"

namespace fitwright {
namespace {

constexpr const char* config_key = "/language";
constexpr const char* domain = "fitwright";

struct Language {
  const char* code;  ///< as the configuration keeps it
  const char* name;  ///< in itself
  char decimal_sign;
};
constexpr std::array<Language, 3> languages{{
    {"", noted("As the desktop"), '.'},
    {"en", "English", '.'},
    {"de", "Deutsch", ','},
}};

const Language& language_of(const std::string& code) {
  for (const Language& language : languages)
    if (language.code == code) return language;
  return languages[1];
}

std::string environment(const char* name) {
  const char* value = std::getenv(name);
  return value != nullptr ? value : "";
}

/// The locale's name for a category, as the C library finds it: "de_DE.UTF-8".
std::string locale_name(const char* category) {
  for (const char* name : {"LC_ALL", category, "LANG"})
    if (std::string value = environment(name); !value.empty()) return value;
  return "C";
}

/// Decimal sign of the desktop's numbers, or of `language` where the machine does not have that locale. Asked without
/// changing the locale of the process.
char sign_of_desktop(const Language& language) {
  if (locale_t numbers = newlocale(LC_NUMERIC_MASK, "", nullptr)) {
    const std::string sign = nl_langinfo_l(RADIXCHAR, numbers);
    freelocale(numbers);
    return sign == "," ? ',' : '.';
  }
  return language.decimal_sign;
}

/// The compiled catalogue that wx has read. What is given out is kept as UTF-8, so that it stays valid.
class CompiledCatalogue : public Catalogue {
 public:
  explicit CompiledCatalogue(const wxTranslations& texts) : texts_(texts) {}

  const char* find(const char* one, const char* many, std::size_t number) const override {
    const unsigned counted = many != nullptr ? static_cast<unsigned>(number) : UINT_MAX;
    const wxString* text = texts_.GetTranslatedString(wxString::FromUTF8(one), counted, domain);
    if (text == nullptr || text->empty()) return nullptr;
    const std::lock_guard lock(mutex_);
    return kept_.try_emplace(text, utf8(*text)).first->second.c_str();
  }

 private:
  const wxTranslations& texts_;
  mutable std::mutex mutex_;
  mutable std::unordered_map<const wxString*, std::string> kept_;
};

/// Reads the catalogue of `language` from beside the program as it is built, or from where it is installed, and the
/// words of the libraries (buttons of dialogs) where the machine has them in that language. Null where there is none.
const Catalogue* catalogue_of(const std::string& language) {
  setenv("LANGUAGE", language.c_str(), 1);  // for GTK, which asks for each of its words anew
  const wxString folder = wxFileName(wxStandardPaths::Get().GetExecutablePath()).GetPath();
  for (const char* place : {"/locale", "/../gui/locale", "/../share/locale"})
    wxFileTranslationsLoader::AddCatalogLookupPathPrefix(folder + place);
  auto* translations = new wxTranslations;
  translations->SetLanguage(wx(language));
  wxTranslations::Set(translations);  // wx owns it, to its end
  translations->AddStdCatalog();
  if (!translations->AddCatalog(domain)) return nullptr;
  static CompiledCatalogue catalogue(*translations);
  return &catalogue;
}

}  // namespace

std::string chosen_language() {
  const std::string choice = utf8(wxConfigBase::Get()->Read(config_key, wxString()));
  return language_of(choice).code == choice ? choice : std::string();
}

std::string language_for(const std::string& choice) {
  if (!choice.empty()) return choice;
  const std::string locale = locale_name("LC_MESSAGES");
  if (locale == "C" || locale == "POSIX") return "en";
  std::istringstream wanted(environment("LANGUAGE") + ":" + locale);
  for (std::string name; std::getline(wanted, name, ':');)
    for (const Language& language : languages)
      if (*language.code != '\0' && name.substr(0, name.find_first_of("_.@")) == language.code) return language.code;
  return "en";
}

void speak_chosen_language() {
  const std::string choice = chosen_language();
  const Language& language = language_of(language_for(choice));
  const char sign = choice.empty() ? sign_of_desktop(language) : language.decimal_sign;
  // The toolkit has taken the desktop's locale for the whole process. Libraries that write files must not see its
  // decimal sign; what people read gets it from the texts.
  std::setlocale(LC_NUMERIC, "C");
  const bool of_desktop = choice.empty() && language.code == std::string("en");
  speak(of_desktop ? nullptr : catalogue_of(language.code), sign);
}

wxMenu* language_menu(int first_id) {
  auto* menu = new wxMenu;
  const std::string choice = chosen_language();
  for (std::size_t i = 0; i < languages.size(); ++i) {
    const int id = first_id + static_cast<int>(i);
    menu->AppendRadioItem(id, wx(tr(languages[i].name)));
    if (choice == languages[i].code) menu->Check(id, true);
  }
  return menu;
}

std::string choose_language(int index) {
  wxConfigBase& config = *wxConfigBase::Get();
  config.Write(config_key, wx(languages.at(static_cast<std::size_t>(index)).code));
  config.Flush();
  return tr("The language changes at the next start.");
}

}  // namespace fitwright
