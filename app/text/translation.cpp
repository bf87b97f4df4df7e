#include "app/text/translation.hpp"

#include <QCoreApplication>
#include <QLibraryInfo>

namespace quillbench {

namespace {

struct TranslationText {
    Q_DECLARE_TR_FUNCTIONS(TranslationText)
};

/// The standard buttons, so that they are translated without Qt's own translations too.
[[maybe_unused]] constexpr const char* kButtonsOfQt[] = {
    QT_TRANSLATE_NOOP("QPlatformTheme", "OK"),
    QT_TRANSLATE_NOOP("QPlatformTheme", "Cancel"),
    QT_TRANSLATE_NOOP("QPlatformTheme", "Close"),
    QT_TRANSLATE_NOOP("QPlatformTheme", "&Yes"),
    QT_TRANSLATE_NOOP("QPlatformTheme", "&No"),
    QT_TRANSLATE_NOOP("QPlatformTheme", "Save"),
    QT_TRANSLATE_NOOP("QPlatformTheme", "Open"),
    QT_TRANSLATE_NOOP("QPlatformTheme", "Discard"),
    QT_TRANSLATE_NOOP("QPlatformTheme", "Help"),
};

QLocale localeOf(Language language) {
    const QLocale system = QLocale::system();
    if (language == Language::AsSystem) {
        return system;
    }
    const QLocale::Language wanted =
        language == Language::German ? QLocale::German : QLocale::English;
    return system.language() == wanted ? system : QLocale(wanted);
}

/// Of the languages that the system's person reads, the first that the window speaks.
bool isGerman(Language language) {
    if (language != Language::AsSystem) {
        return language == Language::German;
    }
    for (const QString& wanted : QLocale::system().uiLanguages()) {
        if (wanted.startsWith(QStringLiteral("de"))) {
            return true;
        }
        if (wanted.startsWith(QStringLiteral("en"))) {
            return false;
        }
    }
    return false;
}

} // namespace

QString languageCode(Language language) {
    switch (language) {
    case Language::AsSystem:
        break;
    case Language::English:
        return QStringLiteral("en");
    case Language::German:
        return QStringLiteral("de");
    }
    return {};
}

Language languageOf(const QString& code) {
    return code == QStringLiteral("de")   ? Language::German
           : code == QStringLiteral("en") ? Language::English
                                          : Language::AsSystem;
}

Translation::Translation(Language language) {
    QLocale::setDefault(localeOf(language));
    if (!isGerman(language)) {
        return;
    }
    if (qts_.load(QStringLiteral("qtbase_de"),
                  QLibraryInfo::path(QLibraryInfo::TranslationsPath))) {
        QCoreApplication::installTranslator(&qts_);
    }
    if (ours_.load(QStringLiteral(":/translations/quillbench_de.qm"))) {
        QCoreApplication::installTranslator(&ours_);
    }
}

Translation::~Translation() {
    QCoreApplication::removeTranslator(&ours_);
    QCoreApplication::removeTranslator(&qts_);
    QLocale::setDefault(before_);
}

Language spokenLanguage() {
    //: Code of the language this is translated into.
    return languageOf(TranslationText::tr("en"));
}

} // namespace quillbench
