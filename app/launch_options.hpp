#pragma once

#include "app/models/choices.hpp"
#include "app/text/translation.hpp"
#include "core/support/result.hpp"

#include <QString>
#include <QStringList>
#include <optional>

namespace quillbench {

/// What the command line asks of the window. What it leaves out is as in the last session.
struct LaunchOptions {
    QString settingsFolder; ///< empty: the platform's
    std::optional<QString> instrument;
    std::optional<QString> choir;
    std::optional<QString> temperament;
    std::optional<double> a4Hz;
    std::optional<SourceChoice> source;
    std::optional<Language> language;
    bool hurry = false;          ///< recordings are heard as fast as they are taken
    QString readingsFile;        ///< empty: none
    double screenshotAfterS = 0; ///< > 0: a picture of the window then, and the program ends
    QString screenshotFile;
    QStringList files;   ///< to be opened, each where it belongs
    QStringList choices; ///< options given that only a window of its own can follow, such as "--a4"
    bool help = false;
    bool version = false;
    QString helpText;
};

/// **Errors** BadArgument in one line.
[[nodiscard]] Result<LaunchOptions> parseLaunchOptions(const QStringList& arguments);

} // namespace quillbench
