#include "audio/sound_file.hpp"
#include "core/support/random.hpp"
#include "tests/support/sound_files.hpp"
#include "tests/support/temporary_folder.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <fstream>
#include <limits>

using namespace quillbench;

namespace {

std::vector<float> noiseBlock(std::size_t count, std::uint64_t seed) {
    Random random(seed);
    std::vector<float> samples(count);
    for (float& sample : samples) {
        sample = static_cast<float>(random.uniform(-0.9, 0.9));
    }
    return samples;
}

std::string textOf(const Result<Sound>& result) {
    return result ? "no error" : result.error().text;
}

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

} // namespace

TEST_CASE("a sound file is read as it was written", "[unit]") {
    const test::TemporaryFolder folder;
    const std::vector<float> samples = noiseBlock(10000, 1);

    struct Case {
        const char* name;
        int format;
        double
            tolerance; // half a step of rounding, and libsndfile writes × (2ⁿ⁻¹−1) but reads ÷ 2ⁿ⁻¹
    };

    const auto format = GENERATE(values<Case>({
        {"a.wav", SF_FORMAT_WAV | SF_FORMAT_FLOAT, 0.0},
        {"a16.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, 1.5 / 32768},
        {"a24.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_24, 1.5 / 8388608},
        {"a.aiff", SF_FORMAT_AIFF | SF_FORMAT_PCM_24, 1.5 / 8388608},
        {"a.flac", SF_FORMAT_FLAC | SF_FORMAT_PCM_24, 1.5 / 8388608},
    }));
    const auto path = folder.path() / format.name;
    REQUIRE(test::writeSound(path, samples, 48000, 1, format.format));
    const auto sound = readSound(path);
    INFO(textOf(sound));
    REQUIRE(sound);
    CHECK(sound->rate.hz() == 48000.0);
    REQUIRE(sound->samples.size() == samples.size());
    double worst = 0.0;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        worst = std::max(
            worst,
            std::fabs(static_cast<double>(sound->samples[i]) - static_cast<double>(samples[i])));
    }
    CHECK(worst <= format.tolerance);
}

TEST_CASE("one channel or the mean of all is read", "[unit]") {
    const test::TemporaryFolder folder;
    const auto path = folder.path() / "stereo.wav";
    REQUIRE(test::writeSound(
        path, {0.5F, -0.25F, 1.0F, 0.5F}, 44100, 2, SF_FORMAT_WAV | SF_FORMAT_FLOAT));
    CHECK(readSound(path).value().samples == std::vector<float>{0.125F, 0.75F});
    CHECK(readSound(path, 0).value().samples == std::vector<float>{0.5F, 1.0F});
    CHECK(readSound(path, 1).value().samples == std::vector<float>{-0.25F, 0.5F});
    const auto third = readSound(path, 2);
    REQUIRE_FALSE(third);
    CHECK(third.error().code == ErrorCode::BadArgument);
    CHECK(contains(third.error().text, "channel 3"));
    CHECK(contains(third.error().text, "choose 1 to 2"));
}

TEST_CASE("what is no whole sound is refused with the file and the reason", "[unit]") {
    const test::TemporaryFolder folder;
    const auto path = folder.path() / "x.wav";
    const int wavFloat = SF_FORMAT_WAV | SF_FORMAT_FLOAT;
    std::string reason;
    SECTION("missing") {
        reason = "no such file";
    }
    SECTION("a folder") {
        std::filesystem::create_directory(path);
        reason = "folder";
    }
    SECTION("nothing in it") {
        const std::ofstream nothing(path);
        reason = "empty";
    }
    SECTION("a header and no sound") {
        REQUIRE(test::writeSound(path, {}, 48000, 1, wavFloat));
        reason = "holds no sound";
    }
    SECTION("text") {
        std::ofstream(path) << "This is not sound, whatever its name says.\n";
        reason = "not a sound file";
    }
    SECTION("a rate that no analysis takes") {
        REQUIRE(test::writeSound(path, noiseBlock(100, 2), 4000, 1, wavFloat));
        reason = "4000 Hz";
    }
    SECTION("a sample that is not a number") {
        std::vector<float> samples = noiseBlock(5000, 3);
        samples[4321] = std::numeric_limits<float>::quiet_NaN();
        REQUIRE(test::writeSound(path, samples, 48000, 1, wavFloat));
        reason = "sample 4321";
    }
    SECTION("a sample that is infinite") {
        std::vector<float> samples = noiseBlock(5000, 3);
        samples[17] = -std::numeric_limits<float>::infinity();
        REQUIRE(test::writeSound(path, samples, 48000, 1, wavFloat));
        reason = "sample 17";
    }
    SECTION("a WAV file cut short") {
        REQUIRE(test::writeSound(path, noiseBlock(5000, 4), 48000, 1, wavFloat));
        std::filesystem::resize_file(path, std::filesystem::file_size(path) / 2);
        reason = "cut short";
    }
    SECTION("an AIFF file cut short") {
        REQUIRE(test::writeSound(
            path, noiseBlock(5000, 4), 48000, 1, SF_FORMAT_AIFF | SF_FORMAT_PCM_16));
        std::filesystem::resize_file(path, std::filesystem::file_size(path) / 2);
        reason = "cut short";
    }
    SECTION("a FLAC file cut short") {
        REQUIRE(test::writeSound(
            path, noiseBlock(50000, 4), 48000, 1, SF_FORMAT_FLAC | SF_FORMAT_PCM_16));
        std::filesystem::resize_file(path, std::filesystem::file_size(path) / 2);
        reason = "cut short";
    }
    const auto sound = readSound(path);
    REQUIRE_FALSE(sound);
    INFO(sound.error().text);
    CHECK(sound.error().code == ErrorCode::UnreadableInput);
    CHECK(contains(sound.error().text, path.string()));
    CHECK(contains(sound.error().text, reason));
}
