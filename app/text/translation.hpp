#pragma once

#include <QLocale>
#include <QTranslator>

namespace quillbench {

/// What the window speaks.
enum class Language {
    AsSystem, ///< German where the system asks for it, else English
    English,
    German,
};

/// "en", "de"; empty: as the system.
[[nodiscard]] QString languageCode(Language language);

/// AsSystem for any other code.
[[nodiscard]] Language languageOf(const QString& code);

/// While it lives, what tr() gives is in one language, and numbers are written as its people write them: as the system
/// writes them where the system's language is the same (or none was chosen). Qt's own texts come along where its
/// translations are installed. Made before any widget. **Thread** GUI.
class Translation {
public:
    explicit Translation(Language language);
    ~Translation();
    Translation(const Translation&) = delete;
    Translation& operator=(const Translation&) = delete;

private:
    QTranslator ours_;
    QTranslator qts_;
    QLocale before_;
};

/// What the window speaks now: English or German.
[[nodiscard]] Language spokenLanguage();

} // namespace quillbench
