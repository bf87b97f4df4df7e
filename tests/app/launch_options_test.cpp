#include "app/launch_options.hpp"

#include <catch2/catch.hpp>

using namespace quillbench;

namespace {

Result<LaunchOptions> parse(const QString& line) {
    return parseLaunchOptions(
        QStringLiteral("quillbench ").append(line).split(QLatin1Char(' '), Qt::SkipEmptyParts));
}

} // namespace

TEST_CASE("the command line chooses instrument, pitch, source and files", "[ui]") {
    const auto options = parse(
        QStringLiteral("--instrument spinet --choir 8 --temperament vallotti --a4 392 "
                       "--source take.flac --hurry --settings-dir d --record-readings r.jsonl "
                       "--screenshot-after 2.5 p.png"));
    REQUIRE(options);
    CHECK(*options->instrument == QStringLiteral("spinet"));
    CHECK(*options->a4Hz == Approx(392.0));
    CHECK(options->source->kind == SourceKind::File);
    CHECK(options->source->file == QStringLiteral("take.flac"));
    CHECK(options->hurry);
    CHECK_FALSE(parse(QStringLiteral("--source take.flac"))->hurry);
    CHECK(options->screenshotAfterS == Approx(2.5));
    CHECK(options->screenshotFile == QStringLiteral("p.png"));
}

TEST_CASE("a device alone means the microphone", "[ui]") {
    const auto options = parse(QStringLiteral("--device vmic"));
    REQUIRE(options);
    CHECK(options->source->kind == SourceKind::Microphone);
    CHECK(options->source->device == QStringLiteral("vmic"));
    CHECK_FALSE(parse(QString())->source.has_value());
}

TEST_CASE("files on the command line are to be opened; the picture's comes before them", "[ui]") {
    const auto options = parse(QStringLiteral("a.wav --screenshot-after 1 b.quillbench"));
    REQUIRE(options);
    CHECK(options->screenshotFile == QStringLiteral("a.wav"));
    CHECK(options->files == QStringList{QStringLiteral("b.quillbench")});
    CHECK(parse(QStringLiteral("a.wav b.json"))->files.size() == 2);
}

TEST_CASE("what only a window of its own can follow is told from files and the folder", "[ui]") {
    CHECK(parse(QStringLiteral("--settings-dir d a.wav"))->choices.isEmpty());
    CHECK(parse(QStringLiteral("--a4 392 a.wav"))->choices == QStringList{QStringLiteral("--a4")});
}

TEST_CASE("a wrong command line is refused in one line", "[ui]") {
    for (const char* line : {"--a4 12", "--a4 x", "--screenshot-after 2", "--no-such"}) {
        INFO(line);
        const auto options = parse(QString::fromLatin1(line));
        REQUIRE_FALSE(options);
        CHECK(options.error().text.find('\n') == std::string::npos);
        CHECK_FALSE(options.error().text.empty());
    }
}
