#include "tests/core/virtual/playing.hpp"

#include <catch2/catch.hpp>

using namespace quillbench;
using namespace quillbench::test;
using Kind = VirtualCommand::Kind;

namespace {

constexpr std::size_t kSecond = 48000;

std::size_t firstDifference(const std::vector<float>& a, const std::vector<float>& b) {
    return static_cast<std::size_t>(std::mismatch(a.begin(), a.end(), b.begin(), b.end()).first -
                                    a.begin());
}

/// The two-manual 8′ 8′ 4′: choirs "8", "8b", "4".
const Instrument& doubleManual() {
    return exampleInstruments().front();
}

std::size_t registerOf(const Instrument& instrument, std::size_t choir) {
    return soloRegister(instrument, choir).value();
}

VirtualSettings with(VirtualSettings settings, StringFault::Kind kind, StringId at, double amount) {
    settings.faults.push_back({kind, at, amount});
    return settings;
}

/// Largest second difference in [from, to): a step of size J in the signal shows as J at least.
double roughness(const std::vector<float>& sound, std::size_t from, std::size_t to) {
    double most = 0.0;
    for (std::size_t i = std::max<std::size_t>(from, 2); i < to; ++i) {
        most = std::max(most,
                        std::abs(static_cast<double>(sound[i]) -
                                 2.0 * static_cast<double>(sound[i - 1]) +
                                 static_cast<double>(sound[i - 2])));
    }
    return most;
}

} // namespace

TEST_CASE("the same commands give the same samples in blocks of any size", "[unit]") {
    const Instrument& made = doubleManual();
    VirtualSettings settings = quiet(made, 7);
    settings.room.noise = Decibel::fromAmplitude(1e-3);
    settings.room.hum = Decibel::fromAmplitude(1e-3);
    settings.room.kelvinPerHour = 4.0;
    settings.pins = {1.0, 0.5, 0.2};
    settings.actionNoise = true;
    settings.soundingLimit = 3;
    const std::vector<VirtualCommand> commands{onKey(Kind::KeyDown, 100, 20),
                                               onKey(Kind::KeyDown, 101, 24),
                                               onKey(Kind::KeyUp, 6011, 20),
                                               onKey(Kind::KeyDown, 9000, 20, 0.05),
                                               onString(Kind::TurnPin, 9500, {0, 24}, 0.7),
                                               onString(Kind::PluckString, 12000, {1, 12}),
                                               command(Kind::DampAll, 17123)};

    VirtualInstrument whole(made, settings);
    for (const auto& c : commands) {
        whole.apply(c);
    }
    const std::vector<float> expected = rendered(whole, 24000, {24000});
    CHECK(rms(expected) > 1e-3);

    SECTION("blocks of mixed sizes") {
        VirtualInstrument pieces(made, settings);
        for (const auto& c : commands) {
            pieces.apply(c);
        }
        CHECK(firstDifference(rendered(pieces, 24000, {1, 63, 64, 65, 7, 480, 1024}), expected) ==
              24000);
    }
    SECTION("commands handed over just before their frame") {
        VirtualInstrument live(made, settings);
        std::vector<float> sound(24000);
        std::size_t next = 0;
        for (std::size_t done = 0; done < sound.size(); done += 250) {
            while (next < commands.size() &&
                   commands[next].at.value() < static_cast<std::int64_t>(done + 250)) {
                live.apply(commands[next++]);
            }
            live.render(std::span(sound).subspan(done, 250));
        }
        CHECK(firstDifference(sound, expected) == 24000);
    }
    SECTION("another seed is another instrument") {
        settings.seed = 8;
        VirtualInstrument other(made, settings);
        for (const auto& c : commands) {
            other.apply(c);
        }
        CHECK(firstDifference(rendered(other, 24000), expected) < 24000);
    }
}

TEST_CASE("nothing sounds until something is plucked", "[unit]") {
    const Instrument& made = doubleManual();
    VirtualSettings settings = quiet(made);
    settings.actionNoise = true;
    VirtualInstrument instrument(made, settings);
    CHECK(rms(rendered(instrument, 4800)) <= 0.0);
    CHECK(plucks(instrument).empty());
}

TEST_CASE("a key plucks the registers that are on, in the order of their stagger", "[unit]") {
    const Instrument& made = doubleManual();
    VirtualSettings settings = quiet(made);
    VirtualInstrument instrument(made, settings);
    const std::size_t second = registerOf(made, 1);
    const std::size_t four = registerOf(made, 2);

    VirtualCommand off = command(Kind::RegisterOff, 0);
    off.reg = four;
    instrument.apply(off);
    const double slow = 0.05;
    instrument.apply(onKey(Kind::KeyDown, 10, 24, slow));
    rendered(instrument, kSecond);
    auto records = plucks(instrument);
    const auto expected =
        plucksOf(made, {RegisterSet().set().reset(four).reset(second), false, 0}, 0, 24);
    REQUIRE(records.size() == expected.size());
    for (std::size_t i = 0; i < records.size(); ++i) {
        CHECK(records[i].string == expected[i].string);
    }

    VirtualCommand on = off;
    on.kind = Kind::RegisterOn;
    instrument.apply(on);
    instrument.apply(onKey(Kind::KeyUp, 0, 24));
    rendered(instrument, kSecond);
    instrument.apply(onKey(Kind::KeyDown, 0, 24, slow));
    rendered(instrument, kSecond);
    records = plucks(instrument);
    const auto more = plucksOf(made, {RegisterSet().set().reset(second), false, 0}, 0, 24);
    REQUIRE(records.size() == more.size());
    REQUIRE(records.size() > expected.size());
    CHECK(records.back().at > records.front().at);

    // The spread of a slow key is that of the stagger in millimetres over the speed (10 mm/s here); the
    // jacks' own scatter is 0.08 mm (one standard deviation).
    double first = 1e9;
    double last = 0.0;
    for (const KeyPluck& pluck : more) {
        first = std::min(first, made.registers[pluck.reg].stagger);
        last = std::max(last, made.registers[pluck.reg].stagger);
    }
    const double spread = static_cast<double>((records.back().at - records.front().at).value()) /
                          static_cast<double>(kSecond);
    CHECK(spread == Approx((last - first) / 10.0).margin(0.04));
}

TEST_CASE("the coupler takes the upper manual's jacks along", "[unit]") {
    const Instrument& made = doubleManual();
    VirtualInstrument instrument(made, quiet(made));
    instrument.apply(onKey(Kind::KeyDown, 0, 24));
    rendered(instrument, kSecond / 4);
    const std::size_t alone = plucks(instrument).size();
    instrument.apply(onKey(Kind::KeyUp, 0, 24));
    instrument.apply(command(Kind::Couple, 0));
    rendered(instrument, kSecond / 4);
    instrument.apply(onKey(Kind::KeyDown, 0, 24));
    rendered(instrument, kSecond / 4);
    CHECK(plucks(instrument).size() > alone);
}

TEST_CASE("a key let go damps its strings", "[unit]") {
    const Instrument& made = doubleManual();
    const std::size_t key = GENERATE(as<std::size_t>{}, 4, 24, 44);
    VirtualInstrument instrument(made, quiet(made));
    instrument.apply(onKey(Kind::KeyDown, 0, key));
    instrument.apply(onKey(Kind::KeyUp, kSecond, key));
    const auto sound = rendered(instrument, 2 * kSecond);
    const std::span all(sound);
    const double before = rms(all.subspan(kSecond - 4800, 4800));
    const double after = rms(all.subspan(kSecond + 24000, 4800));
    CHECK(before > 2e-3);
    CHECK(after < 0.1 * before);
    // Let go before the plectrum is reached, nothing sounds.
    instrument.apply(onKey(Kind::KeyDown, 0, key, 0.01));
    rendered(instrument, 2400);
    instrument.apply(onKey(Kind::KeyUp, 0, key));
    rendered(instrument, kSecond);
    plucks(instrument);
    const auto nothing = plucks(instrument);
    CHECK(nothing.empty());
}

TEST_CASE("a register that is off still lifts its damper, and its string rings along", "[unit]") {
    const Instrument& made = *findExample("single-8-8");
    VirtualSettings settings = quiet(made);
    settings.registersOn.assign(made.registers.size(), true);
    settings.registersOn[registerOf(made, 1)] = false;
    const std::size_t key = 20;
    VirtualInstrument held(made, settings);
    held.apply(onKey(Kind::KeyDown, 0, key));
    const auto sound = rendered(held, 4 * kSecond);
    REQUIRE(plucks(held).size() == 1);

    held.apply(onKey(Kind::KeyUp, 0, key));
    rendered(held, 2 * kSecond);
    CHECK(rms(rendered(held, 4800)) < 1e-4);

    // The same string plucked by hand leaves the other damped: the difference is what rings along.
    VirtualInstrument byHand(made, settings);
    byHand.apply(onString(Kind::PluckString, 0, {0, 20}));
    const auto other = rendered(byHand, 4 * kSecond);
    const auto record = plucks(byHand);
    REQUIRE(record.size() == 1);
    const double f = record.front().rest.value();
    const auto ringing = demodulate(sound, 48000.0, f, 0.2, 3.8, 0.05);
    const auto single = demodulate(other, 48000.0, f, 0.2, 3.8, 0.05);
    double most = 0.0;
    for (std::size_t i = 0; i < ringing.z.size(); ++i) {
        const double ratio = std::abs(ringing.z[i]) / std::abs(single.z[i]);
        const double first = std::abs(ringing.z[0]) / std::abs(single.z[0]);
        most = std::max(most, std::abs(20.0 * std::log10(ratio / first)));
    }
    CHECK(most > 0.3);  // it is heard as a false beat …
    CHECK(most < 12.0); // … of a string that is softer than the one plucked
}

TEST_CASE("felt between its strings keeps a choir that is off from ringing along", "[unit]") {
    const Instrument& made = *findExample("single-8-8");
    VirtualSettings settings = quiet(made);
    settings.registersOn.assign(made.registers.size(), true);
    settings.registersOn[registerOf(made, 1)] = false;
    VirtualInstrument byHand(made, settings);
    byHand.apply(onString(Kind::PluckString, 0, {0, 20}));
    const auto alone = rendered(byHand, 2 * kSecond);
    const double f = plucks(byHand).front().rest.value();
    const auto single = demodulate(alone, 48000.0, f, 0.2, 1.8, 0.05);
    const auto strays = [&](bool felted) {
        VirtualInstrument played(made, settings);
        played.apply(onString(felted ? Kind::LayFelt : Kind::TakeFelt, 0, {1, 0}));
        played.apply(onKey(Kind::KeyDown, 0, 20));
        const auto sound = demodulate(rendered(played, 2 * kSecond), 48000.0, f, 0.2, 1.8, 0.05);
        double most = 0.0;
        for (std::size_t i = 0; i < sound.z.size(); ++i) {
            const double ratio = std::abs(sound.z[i]) / std::abs(single.z[i]);
            const double first = std::abs(sound.z[0]) / std::abs(single.z[0]);
            most = std::max(most, std::abs(20.0 * std::log10(ratio / first)));
        }
        return most;
    };
    CHECK(strays(false) > 0.1);
    CHECK(strays(true) < 0.1 * strays(false));
}

TEST_CASE("commands make no clicks", "[unit]") {
    const Instrument& made = doubleManual();
    VirtualSettings settings = quiet(made);
    settings.soundingLimit = 2;
    VirtualInstrument instrument(made, settings);
    const StringId string{0, 24};
    instrument.apply(onString(Kind::PluckString, 0, string));
    const std::vector<VirtualCommand> commands{
        onString(Kind::TurnPin, 24000, string, 1.0),
        onString(Kind::PressString, 28000, string, 20.0),
        onString(Kind::PressString, 32000, string, 0.0),
        onString(Kind::DampString, 36000, string),
    };
    for (const auto& c : commands) {
        instrument.apply(c);
    }
    const auto sound = rendered(instrument, kSecond);
    CHECK(rms(std::span(sound).subspan(35000, 900)) > 1e-3);
    for (const auto& c : commands) {
        const auto at = static_cast<std::size_t>(c.at.value());
        CHECK(roughness(sound, at - 64, at + 128) < 1.5 * roughness(sound, at - 2400, at - 64));
    }

    // Plucked again while it sounds, and more strings than may sound: no sample stands out against the
    // steepest of the sound itself.
    VirtualInstrument busy(made, settings);
    for (std::size_t i = 0; i < 6; ++i) {
        busy.apply(onString(
            Kind::PluckString, static_cast<std::int64_t>(6000 * i), {0, 20 + 2 * (i % 4)}));
    }
    const auto dense = rendered(busy, kSecond);
    double most = 0.0;
    double peak = 0.0;
    for (std::size_t i = 1; i < dense.size(); ++i) {
        most = std::max(
            most, std::abs(static_cast<double>(dense[i]) - static_cast<double>(dense[i - 1])));
        peak = std::max(peak, std::abs(static_cast<double>(dense[i])));
    }
    CHECK(most < 0.6 * peak);
    CHECK(peak < 1.0);
    for (const PluckRecord& record : plucks(busy)) {
        const auto at = static_cast<std::size_t>(record.at.value());
        const double step =
            std::abs(static_cast<double>(dense[at]) - static_cast<double>(dense[at - 1]));
        CHECK(step < 0.1 * peak);
    }
}

TEST_CASE("sixteen strings at once stay below full scale", "[unit]") {
    const Instrument& made = *findExample("double-16-8-8-4");
    VirtualSettings settings = quiet(made);
    settings.actionNoise = true;
    VirtualInstrument instrument(made, settings);
    for (const std::size_t key : {12U, 19U, 24U, 28U}) {
        for (std::size_t choir = 0; choir < 4; ++choir) {
            instrument.apply(onString(Kind::PluckString, 0, {choir, key}));
        }
    }
    const auto sound = rendered(instrument, 2 * kSecond);
    CHECK(plucks(instrument).size() == 16);
    const auto [low, high] = std::minmax_element(sound.begin(), sound.end());
    CHECK(*low > -1.0F);
    CHECK(*high < 1.0F);
    CHECK(rms(sound) > 0.02);
    CHECK(std::all_of(sound.begin(), sound.end(), [](float x) { return std::isfinite(x); }));
}

TEST_CASE("strings and jacks can be at fault", "[unit]") {
    const Instrument& made = *findExample("single-8-8");
    const StringId string{0, 20};
    VirtualSettings settings = quiet(made);
    settings.registersOn.assign(made.registers.size(), false);
    settings.registersOn[registerOf(made, 0)] = true;
    const auto played = [&made](const VirtualSettings& how) {
        VirtualInstrument instrument(made, how);
        instrument.apply(onKey(Kind::KeyDown, 0, 20));
        instrument.apply(onKey(Kind::KeyUp, kSecond, 20));
        return rendered(instrument, 2 * kSecond);
    };
    const auto good = played(settings);
    const auto early = [](const std::vector<float>& s) {
        return rms(std::span(s).subspan(4800, 19200));
    };
    const auto late = [](const std::vector<float>& s) {
        return rms(std::span(s).subspan(kSecond + 12000, 9600));
    };

    CHECK(early(played(with(settings, StringFault::Kind::Broken, string, 0.0))) <= 0.0);
    CHECK(early(played(with(settings, StringFault::Kind::WeakPlectrum, string, 0.3))) ==
          Approx(0.3 * early(good)).epsilon(0.01));
    CHECK(late(played(with(settings, StringFault::Kind::LateDamper, string, 0.5))) >
          4.0 * late(good));
    CHECK(late(played(with(settings, StringFault::Kind::PartialDamper, string, 1.0))) >
          2.0 * late(good));
    CHECK(early(played(with(settings, StringFault::Kind::EarlyDamper, string, 0.2))) <
          0.8 * early(good));

    VirtualInstrument hanging(made, with(settings, StringFault::Kind::HangingJack, string, 0.0));
    for (std::int64_t i = 0; i < 3; ++i) {
        hanging.apply(onKey(Kind::KeyDown, 48000 * i, 20));
        hanging.apply(onKey(Kind::KeyUp, 48000 * i + 24000, 20));
    }
    rendered(hanging, 3 * kSecond);
    CHECK(plucks(hanging).size() == 1);

    // A false beat: partial 1 of the one string waxes and wanes at the width asked for.
    const double cents = 8.0;
    VirtualInstrument beating(made, with(settings, StringFault::Kind::FalseBeat, string, cents));
    beating.apply(onString(Kind::PluckString, 0, string));
    const auto sound = rendered(beating, 4 * kSecond);
    const double f = plucks(beating).at(0).rest.value();
    const auto partial = demodulate(sound, 48000.0, f, 0.1, 3.9, 0.05);
    std::vector<double> dips;
    for (std::size_t i = 1; i + 1 < partial.z.size(); ++i) {
        const double here = std::abs(partial.z[i]);
        if (here < std::abs(partial.z[i - 1]) && here < std::abs(partial.z[i + 1])) {
            dips.push_back(partial.seconds[i]);
        }
    }
    REQUIRE(dips.size() >= 2);
    const double beat = static_cast<double>(dips.size() - 1) / (dips.back() - dips.front());
    CHECK(beat == Approx(f * std::log(2.0) / 1200.0 * cents).epsilon(0.03));
}

TEST_CASE("warmth lowers every string by its own amount", "[unit]") {
    const Instrument& made = doubleManual();
    VirtualSettings settings = quiet(made);
    settings.room.kelvinPerHour = 20.0;
    VirtualInstrument instrument(made, settings);
    const StringId brass{0, 0};
    const StringId iron{0, 40};
    const Hertz brassBefore = instrument.restPitch(brass);
    const Hertz ironBefore = instrument.restPitch(iron);
    std::vector<float> minute(60 * kSecond);
    instrument.render(minute);
    const double brassCents = interval(brassBefore, instrument.restPitch(brass)).value();
    const double ironCents = interval(ironBefore, instrument.restPitch(iron)).value();
    CHECK(brassCents < ironCents);
    CHECK(ironCents < 0.0);
    const double kelvin = 20.0 / 60.0;
    const StringMake& make = made.choirs[0].strings[40];
    CHECK(ironCents ==
          Approx(stringState(make, ironBefore).centsPerKelvin.value() * kelvin).epsilon(1e-3));
}
