#include "audio/recorder.hpp"
#include "audio/sound_file.hpp"
#include "core/support/random.hpp"
#include "tests/support/temporary_folder.hpp"

#include <catch2/catch.hpp>
#include <sys/resource.h>

#include <cmath>
#include <csignal>
#include <fstream>
#include <vector>

using namespace quillbench;

namespace {

std::vector<float> noise(std::size_t count, std::uint64_t seed) {
    Random random(seed);
    std::vector<float> samples(count);
    for (float& sample : samples) {
        sample = static_cast<float>(random.uniform(-1.0, 1.0));
    }
    return samples;
}

/// Files may grow to `bytes` only, as on a full disk.
class DiskLimit {
public:
    explicit DiskLimit(rlim_t bytes) {
        getrlimit(RLIMIT_FSIZE, &before_);
        signal_ = std::signal(SIGXFSZ, SIG_IGN);
        const rlimit limit{bytes, before_.rlim_max};
        setrlimit(RLIMIT_FSIZE, &limit);
    }

    DiskLimit(const DiskLimit&) = delete;
    DiskLimit& operator=(const DiskLimit&) = delete;

    ~DiskLimit() {
        setrlimit(RLIMIT_FSIZE, &before_);
        (void)std::signal(SIGXFSZ, signal_);
    }

private:
    rlimit before_{};
    void (*signal_)(int) = nullptr;
};

} // namespace

TEST_CASE("a recording holds what was pushed", "[unit]") {
    const test::TemporaryFolder folder;
    const auto path = folder.path() / "kept.flac";
    const auto samples = noise(100000, 1);
    auto recorder = Recorder::begin(path, SampleRate(96000));
    REQUIRE(recorder);
    Random random(2);
    std::size_t done = 0;
    while (done < samples.size()) {
        const std::size_t count =
            std::min<std::size_t>(1 + random.bits() % 700, samples.size() - done);
        (*recorder)->push({FrameIndex(static_cast<std::int64_t>(done)),
                           std::span(samples).subspan(done, count),
                           false});
        done += count;
    }
    const auto frames = (*recorder)->finish();
    REQUIRE(frames);
    CHECK(frames->value() == 100000);
    const auto sound = readSound(path);
    REQUIRE(sound);
    CHECK(sound->rate.hz() == 96000.0);
    REQUIRE(sound->samples.size() == samples.size());
    double worst = 0.0;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        worst = std::max(
            worst,
            std::fabs(static_cast<double>(sound->samples[i]) - static_cast<double>(samples[i])));
    }
    CHECK(worst <= 1.5 / 8388608); // 24 bits
}

TEST_CASE("lost sound is kept as silence, ten seconds of it at most", "[unit]") {
    const test::TemporaryFolder folder;
    const auto path = folder.path() / "kept.flac";
    auto recorder = Recorder::begin(path, SampleRate(8000));
    REQUIRE(recorder);
    const std::vector<float> loud(100, 0.5F);
    (*recorder)->push({FrameIndex(5000), loud, false}); // where it begins is no gap
    (*recorder)->push({FrameIndex(5300), loud, true});
    (*recorder)->push({FrameIndex(9000000), loud, true});
    const auto frames = (*recorder)->finish();
    REQUIRE(frames);
    CHECK(frames->value() == 100 + 200 + 100 + 80000 + 100);
    const auto sound = readSound(path);
    REQUIRE(sound);
    REQUIRE(sound->samples.size() == 80500);
    CHECK(sound->samples[99] == Approx(0.5F));
    CHECK(sound->samples[100] == 0.0F);
    CHECK(sound->samples[299] == 0.0F);
    CHECK(sound->samples[300] == Approx(0.5F));
    CHECK(sound->samples[80399] == 0.0F);
    CHECK(sound->samples[80400] == Approx(0.5F));
}

TEST_CASE("a recording never replaces a file, and says where it cannot be", "[unit]") {
    const test::TemporaryFolder folder;
    const auto path = folder.path() / "there.flac";
    std::ofstream(path) << "precious";
    const auto replaced = Recorder::begin(path, SampleRate(48000));
    REQUIRE_FALSE(replaced);
    CHECK(replaced.error().code == ErrorCode::Environment);
    CHECK(replaced.error().text.find("there already") != std::string::npos);
    CHECK(std::filesystem::file_size(path) == 8);
    const auto nowhere = Recorder::begin(folder.path() / "no" / "such.flac", SampleRate(48000));
    REQUIRE_FALSE(nowhere);
    CHECK(nowhere.error().text.find("such.flac") != std::string::npos);
}

TEST_CASE("a full disk stops a recording with a reason", "[unit]") {
    const test::TemporaryFolder folder;
    const DiskLimit limit(100000);
    auto recorder = Recorder::begin(folder.path() / "kept.flac", SampleRate(48000));
    REQUIRE(recorder);
    const auto samples = noise(480000, 3);
    (*recorder)->push({FrameIndex(0), samples, false});
    const auto frames = (*recorder)->finish();
    REQUIRE_FALSE(frames);
    INFO(frames.error().text);
    CHECK(frames.error().code == ErrorCode::Environment);
    CHECK(frames.error().text.find("kept.flac") != std::string::npos);
    CHECK((*recorder)->trouble());
}
