#include "app/models/speaker.hpp"

#include "app/text/translation.hpp"

#include <QStandardPaths>
#include <QStringList>
#include <chrono>
#include <utility>

namespace quillbench {

namespace {

/// The last pluck has had its last word, and the damper has fallen.
constexpr auto kQuietFor = std::chrono::milliseconds(400);
/// The room and the sound server still hold what was said.
constexpr Seconds kEcho{0.4};

} // namespace

Speaker::Speaker(QString program, QObject* parent) : QObject(parent), program_(std::move(program)) {
    quiet_.setSingleShot(true);
    quiet_.setInterval(kQuietFor);
    connect(&quiet_, &QTimer::timeout, this, &Speaker::speak);
    connect(&process_, &QProcess::finished, this, [this] {
        until_ = heardUpTo_;
        danger_ ? speak() : quiet_.start();
    });
}

Speaker::~Speaker() {
    turn(false);
    process_.disconnect(this);
    process_.kill();
    process_.waitForFinished();
}

bool Speaker::available() const {
    return !QStandardPaths::findExecutable(program_).isEmpty();
}

void Speaker::turn(bool on) {
    on_ = on && available();
    waits_.clear();
    said_.clear();
    quiet_.stop();
    if (!on_) {
        cutShort();
    }
}

void Speaker::cutShort() {
    if (speaking()) {
        QProcess::startDetached(program_, {QStringLiteral("--cancel")});
        process_.kill();
    }
}

void Speaker::say(const QString& text, bool danger) {
    if (!on_) {
        return;
    }
    waits_ = text;
    danger_ = danger;
    if (danger && speaking()) {
        cutShort(); // which then says it
    } else if (danger) {
        speak();
    } else if (!sounding_ && !quiet_.isActive()) {
        quiet_.start();
    }
}

void Speaker::follow(FrameIndex heardUpTo, bool sounding) {
    if (heardUpTo < heardUpTo_) {
        from_.reset(); // another source: its frames begin anew
    }
    heardUpTo_ = heardUpTo;
    if (sounding == sounding_ || speaking()) {
        return;
    }
    sounding_ = sounding;
    sounding ? quiet_.stop() : quiet_.start();
}

bool Speaker::drownedOut(FrameIndex pluck, SampleRate rate) const {
    return from_ && pluck >= *from_ && (speaking() || pluck < until_ + rate.frames(kEcho));
}

void Speaker::speak() {
    if (waits_.isEmpty() || waits_ == said_ || speaking() || (sounding_ && !danger_)) {
        return;
    }
    said_ = std::exchange(waits_, QString());
    from_ = heardUpTo_;
    const bool german = spokenLanguage() == Language::German;
    process_.start(program_,
                   {QStringLiteral("--wait"),
                    QStringLiteral("--language"),
                    languageCode(german ? Language::German : Language::English),
                    QStringLiteral("--"),
                    said_});
}

} // namespace quillbench
