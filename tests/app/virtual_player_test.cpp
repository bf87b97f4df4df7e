#include "app/models/virtual_player.hpp"
#include "audio/virtual_source.hpp"
#include "core/virtual/virtual_instrument.hpp"
#include "tests/app/tuning_at_hand.hpp"

#include <algorithm>

using namespace quillbench;
using namespace quillbench::test;

namespace {

constexpr double kPlayerRate = 8000.0;
constexpr std::size_t kQuarterSecond = 2000; // frames

struct Player {
    VirtualPlayer player;
    std::unique_ptr<VirtualSource> source;

    /// **Range** model.ready().
    explicit Player(const TuningModel& model) : player(model) {
        VirtualSettings settings = mistuned(model, SampleRate(kPlayerRate), 1, Cents(25.0));
        settings.room.noise.reset();
        settings.actionNoise = false;
        source = std::make_unique<VirtualSource>(
            std::make_unique<VirtualInstrument>(model.instrument(), settings),
            SampleRate(kPlayerRate),
            Pace::AsTaken);
        REQUIRE(source->start());
        player.setInstrument(source.get());
    }

    /// The loudest sample of the next quarter of a second.
    [[nodiscard]] double loudest() const {
        float peak = 0.0F;
        AudioBlock block;
        for (std::size_t frames = 0; frames < kQuarterSecond && source->take(block);
             frames += block.count) {
            for (std::size_t i = 0; i < block.count; ++i) {
                peak = std::max(peak, std::abs(block.samples[i]));
            }
        }
        return static_cast<double>(peak);
    }
};

} // namespace

TEST_CASE("an instrument that nobody tuned lies within its spread of the targets", "[ui]") {
    TuningModel model;
    chooseFirstOctave(model);
    const VirtualSettings settings = mistuned(model, SampleRate(48000.0), 7, Cents(25.0));
    double worst = 0.0;
    for (std::size_t choir = 0; choir < settings.pitches.size(); ++choir) {
        for (std::size_t course = 0; course < settings.pitches[choir].size(); ++course) {
            const Cents off =
                interval(model.targetOf(StringId{choir, course}), settings.pitches[choir][course]);
            worst = std::max(worst, abs(off).value());
        }
    }
    CHECK(worst <= 25.0);
    CHECK(worst > 20.0);
}

TEST_CASE("a key that is played sounds, and every press plucks it again", "[ui]") {
    TuningModel model;
    chooseFirstOctave(model);
    Player bench(model);
    CHECK(bench.loudest() < 1e-4);
    bench.player.keyDown(20);
    const double first = bench.loudest();
    CHECK(first > 1e-3);
    for (int i = 0; i < 12; ++i) {
        static_cast<void>(bench.loudest());
    }
    const double faded = bench.loudest();
    bench.player.keyDown(20);
    CHECK(bench.loudest() > 1.5 * faded);
}

TEST_CASE("the hammer is on the pin of the key plucked last, or of the step chosen by hand",
          "[ui]") {
    TuningModel model;
    chooseFirstOctave(model);
    Player bench(model);
    bench.player.keyDown(20);
    CHECK(bench.player.atHand() == StringId{0, 20});
    bench.player.turnPinBy(Cents(3.0));
    CHECK(bench.player.turned() * bench.player.centsPerDegree() == Approx(3.0));
    model.act(GoTo{2, {}});
    CHECK(bench.player.atHand() == model.session().plan->steps[2].string);
    CHECK(bench.player.turned() == Approx(0.0));
}

TEST_CASE("a string that no key reaches where the keyboard stands sounds when its step is played",
          "[ui]") {
    TuningModel model;
    TuningChoice choice = firstOctave();
    choice.instrument = QStringLiteral("single-8-8");
    choice.extent = Extent::Whole;
    REQUIRE(model.choose(choice));
    Player bench(model);
    const StringId top{model.choir(), model.instrument().choirs[model.choir()].strings.size() - 1};
    REQUIRE_FALSE(keyAt(model.instrument(), top.course, model.position()));
    const std::size_t step = *model.session().plan->stepOf(top);
    model.act(GoTo{step, {}});
    const std::size_t key = model.session().plan->steps[step].key;
    bench.player.keyDown(key);
    CHECK(bench.loudest() > 1e-3);
    CHECK(bench.player.atHand() == top);
    bench.player.keyUp(key);
    for (int i = 0; i < 12; ++i) {
        static_cast<void>(bench.loudest());
    }
    CHECK(bench.loudest() < 1e-3);
}
