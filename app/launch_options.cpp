#include "app/launch_options.hpp"

#include <QCommandLineParser>
#include <QCoreApplication>

namespace quillbench {

namespace {

struct LaunchText {
    Q_DECLARE_TR_FUNCTIONS(LaunchText)
};

QCommandLineOption option(const char* name, const QString& about, const QString& value) {
    return {QString::fromLatin1(name), about, value};
}

void addOptions(QCommandLineParser& parser) {
    parser.addOption(option("instrument",
                            LaunchText::tr("Instrument: id of a built-in one, or a file."),
                            QStringLiteral("ID|FILE")));
    parser.addOption(
        option("choir", LaunchText::tr("Choir to tune: 8, 8b, 4 or 16."), QStringLiteral("CHOIR")));
    parser.addOption(option(
        "temperament", LaunchText::tr("Temperament: id of the catalogue."), QStringLiteral("ID")));
    parser.addOption(
        option("a4", LaunchText::tr("Pitch standard, 370 to 570."), QStringLiteral("HZ")));
    parser.addOption(
        option("source",
               LaunchText::tr("Where sound comes from: virtual, microphone, or a recording."),
               QStringLiteral("virtual|microphone|FILE")));
    parser.addOption(
        option("device",
               LaunchText::tr("Name of the microphone, as quillbench-cli devices lists it."),
               QStringLiteral("NAME")));
    parser.addOption(
        option("settings-dir",
               LaunchText::tr("Folder of settings and recordings in place of the platform's."),
               QStringLiteral("DIR")));
    parser.addOption(
        {QStringLiteral("hurry"),
         LaunchText::tr("Hear recordings as fast as the computer can, not as they sounded.")});
    parser.addOption(option(
        "language", LaunchText::tr("Language of the window, this time."), QStringLiteral("en|de")));
    parser.addOption(option("record-readings",
                            LaunchText::tr("Write every finished reading and step as a JSON line."),
                            QStringLiteral("FILE")));
    parser.addOption(
        option("screenshot-after",
               LaunchText::tr("After S seconds keep a picture of the window in the file "
                              "that follows, and end."),
               QStringLiteral("S")));
    parser.addPositionalArgument(
        QStringLiteral("files"),
        LaunchText::tr("Recordings, instruments, temperaments, exports of the logbook: each is "
                       "opened in its place."),
        QStringLiteral("[FILE...]"));
}

Result<double> number(const QCommandLineParser& parser, const char* name, double low, double high) {
    const QString text = parser.value(QString::fromLatin1(name));
    bool good = false;
    const double value = text.toDouble(&good);
    if (!good || !(value >= low && value <= high)) {
        return failure(ErrorCode::BadArgument,
                       LaunchText::tr("--%1 %2: give a number from %3 to %4")
                           .arg(QString::fromLatin1(name), text)
                           .arg(low)
                           .arg(high)
                           .toStdString());
    }
    return value;
}

std::optional<QString> given(const QCommandLineParser& parser, const char* name) {
    const QString key = QString::fromLatin1(name);
    return parser.isSet(key) ? std::optional(parser.value(key)) : std::nullopt;
}

std::optional<SourceChoice> sourceOf(const QCommandLineParser& parser) {
    const auto source = given(parser, "source");
    const QString device = parser.value(QStringLiteral("device"));
    if (!source && device.isEmpty()) {
        return std::nullopt;
    }
    SourceChoice choice;
    choice.device = device;
    if (!source || *source == QLatin1String("microphone")) {
        choice.kind = SourceKind::Microphone;
    } else if (*source != QLatin1String("virtual")) {
        choice.kind = SourceKind::File;
        choice.file = *source;
    }
    return choice;
}

Result<void> readScreenshot(const QCommandLineParser& parser, LaunchOptions& options) {
    options.files = parser.positionalArguments();
    if (parser.isSet(QStringLiteral("screenshot-after"))) {
        if (options.files.isEmpty()) {
            return failure(
                ErrorCode::BadArgument,
                LaunchText::tr("--screenshot-after: name a file for the picture after the seconds")
                    .toStdString());
        }
        const Result<double> seconds = number(parser, "screenshot-after", 0.1, 3600.0);
        if (!seconds) {
            return failure(seconds.error().code, seconds.error().text);
        }
        options.screenshotAfterS = *seconds;
        options.screenshotFile = options.files.takeFirst();
    }
    return {};
}

} // namespace

Result<LaunchOptions> parseLaunchOptions(const QStringList& arguments) {
    QCommandLineParser parser;
    parser.setApplicationDescription(
        LaunchText::tr("Keeps harpsichords, spinets and virginals in tune and in regulation."));
    const QCommandLineOption help = parser.addHelpOption();
    const QCommandLineOption version = parser.addVersionOption();
    addOptions(parser);
    if (!parser.parse(arguments)) {
        return failure(ErrorCode::BadArgument, parser.errorText().toStdString());
    }
    LaunchOptions options;
    for (const QString& name : parser.optionNames()) {
        if (name != QLatin1String("settings-dir")) {
            options.choices << QStringLiteral("--") + name;
        }
    }
    options.help = parser.isSet(help);
    options.version = parser.isSet(version);
    options.helpText = parser.helpText();
    if (options.help || options.version) {
        return options;
    }
    options.settingsFolder = parser.value(QStringLiteral("settings-dir"));
    options.instrument = given(parser, "instrument");
    options.choir = given(parser, "choir");
    options.temperament = given(parser, "temperament");
    options.readingsFile = parser.value(QStringLiteral("record-readings"));
    options.source = sourceOf(parser);
    options.hurry = parser.isSet(QStringLiteral("hurry"));
    if (const auto code = given(parser, "language")) {
        options.language = languageOf(*code);
        if (options.language == Language::AsSystem) {
            return failure(ErrorCode::BadArgument,
                           LaunchText::tr("--language %1: give en or de").arg(*code).toStdString());
        }
    }
    if (parser.isSet(QStringLiteral("a4"))) {
        const Result<double> a4 = number(parser, "a4", kLowestStandardHz, kHighestStandardHz);
        if (!a4) {
            return failure(a4.error().code, a4.error().text);
        }
        options.a4Hz = *a4;
    }
    if (const Result<void> picture = readScreenshot(parser, options); !picture) {
        return failure(picture.error().code, picture.error().text);
    }
    return options;
}

} // namespace quillbench
