#include "core/analysis/microphone_monitor.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace quillbench {

namespace {

constexpr double kFrameS = 0.010;
constexpr int kLevelFrames = 5;          // MicrophoneState::level speaks for 50 ms
constexpr int kClippedFrames = 100;      // clipping is shown for a second
constexpr std::size_t kBlocksKept = 128; // frames of history for plateaus and slopes
constexpr std::size_t kFloorSlots = 100;
constexpr int kFramesPerSlot = 10; // the noise floor is the lowest 100 ms of the last 10 s

/// Above this strings of 0.5 s and older have no partials left, so that what is heard there is the room and the
/// microphone's own noise: it neither rises nor stops when a note fades or is damped. Whoever turns the gain
/// turns this noise too.
constexpr double kNoiseBandHz = 10000.0;
constexpr double kNoiseBandShare = 0.36; // of the sample rate, where that is lower

constexpr int kFullScaleRun = 3;     // samples at full scale in a row
constexpr double kFullScale = 0.999; // of 1
constexpr int kFlatRun = 4;          // equal samples in a row at the loudest value of the frame
constexpr double kFlatShare = 0.1;   // quieter plateaus are no clipping

/// A gain that comes back after a pluck: the noise rises smoothly over 0.4 s. Steady noise has a scatter of 0.5 to
/// 0.8 dB from frame to frame, hence ±1 dB/s of slope; recorders let go at 5 to 40 dB/s.
constexpr std::size_t kSlopeFrames = 40;
constexpr double kSlopeDbPerS = 6.0;
constexpr double kSteepestDbPerS = 80.0;
constexpr double kSmoothDb = 1.3;
constexpr int kSettleFrames = 25; // after a pluck its own brightness is still fading

/// A gate that closes: the noise stood still for 0.1 s, and 40 ms later lies far below and stays there, and all
/// else with it (a level control takes the noise down as steeply, but for a pluck).
constexpr std::size_t kPlateauFrames = 10;
constexpr std::size_t kFallFrames = 4;
constexpr std::size_t kStayFrames = 10;
constexpr double kGateDb = 12.0;
constexpr double kQuieterDb = 6.0;
constexpr double kPlateauSpreadDb = 2.0;

/// How often it must be seen before it is said.
constexpr int kTimesSeen = 2;

double db(double power) {
    return Decibel::fromPower(power).value();
}

/// Second-order Butterworth high-pass, bilinear transform; two of them in a row are used.
/// **Source** [Zoelzer2011] §2.2.
struct HighPass {
    double b0 = 0;
    double b1 = 0;
    double a1 = 0;
    double a2 = 0;
    double x1 = 0;
    double x2 = 0;
    double y1 = 0;
    double y2 = 0;

    explicit HighPass(double share) {
        const double k = std::tan(std::numbers::pi * share);
        const double norm = 1.0 / (1.0 + std::numbers::sqrt2 * k + k * k);
        b0 = norm;
        b1 = -2.0 * norm;
        a1 = 2.0 * (k * k - 1.0) * norm;
        a2 = (1.0 - std::numbers::sqrt2 * k + k * k) * norm;
    }

    double operator()(double x) {
        const double y = b0 * x + b1 * x1 + b0 * x2 - a1 * y1 - a2 * y2;
        x2 = x1;
        x1 = x;
        y2 = y1;
        y1 = y;
        return y;
    }
};

} // namespace

struct MicrophoneMonitor::Impl {
    explicit Impl(SampleRate rate)
        : frameLength(static_cast<std::size_t>(kFrameS * rate.hz())),
          first(std::min(kNoiseBandHz / rate.hz(), kNoiseBandShare)),
          second(first) {}

    /// Noise-band and whole level `age` frames ago; 0 is the newest.
    [[nodiscard]] double noise(std::size_t age) const {
        return noiseDb[(newest + kBlocksKept - age) % kBlocksKept];
    }

    [[nodiscard]] double whole(std::size_t age) const {
        return wholeDb[(newest + kBlocksKept - age) % kBlocksKept];
    }

    void endFrame();
    void lookForGain();
    void lookForGate();
    void lookForFlatTops(double sample);

    std::size_t frameLength;
    HighPass first;
    HighPass second;

    std::size_t filled = 0; ///< samples in the present frame
    double power = 0;
    double noisePower = 0;
    double framePeak = 0;
    double previous = 0;
    int sameRun = 0;
    int longestFlat = 0;
    double flatAt = 0;
    int fullRun = 0;
    bool fullScale = false;

    std::array<double, kBlocksKept> noiseDb{};
    std::array<double, kBlocksKept> wholeDb{};
    std::size_t newest = 0;
    std::size_t frames = 0; ///< since the start or the last gap
    std::array<double, kLevelFrames> recentPower{};
    std::array<double, kLevelFrames> recentPeak{};
    std::size_t recent = 0;
    int sinceClipped = kClippedFrames;

    std::array<double, kFloorSlots> floorSlots{};
    std::size_t floorSlot = 0;
    std::size_t floorCount = 0;
    double slotPower = 0;
    int slotFrames = 0;

    int sincePluck = 1 << 20;
    bool gainSeenThisPluck = false;
    int gainSeen = 0;
    int gateSeen = 0;
    int sinceGate = 1 << 20;
};

void MicrophoneMonitor::Impl::lookForFlatTops(double sample) {
    const double size = std::abs(sample);
    framePeak = std::max(framePeak, size);
    fullRun = size >= kFullScale ? fullRun + 1 : 0;
    fullScale = fullScale || fullRun >= kFullScaleRun;
    // Equal samples are meant: a limiter or converter writes the same number again.
    const bool same = !(sample < previous) && !(sample > previous);
    sameRun = same ? sameRun + 1 : 1;
    previous = sample;
    if (sameRun >= kFlatRun && size > kFlatShare && size >= flatAt) {
        flatAt = size;
        longestFlat = std::max(longestFlat, sameRun);
    }
}

void MicrophoneMonitor::Impl::endFrame() {
    const auto count = static_cast<double>(frameLength);
    newest = (newest + 1) % kBlocksKept;
    noiseDb[newest] = db(noisePower / count);
    wholeDb[newest] = db(power / count);
    ++frames;
    recent = (recent + 1) % kLevelFrames;
    recentPower[recent] = power / count;
    recentPeak[recent] = framePeak;
    // A flat top is clipping where nothing in the frame rises above it.
    const bool flat = longestFlat >= kFlatRun && flatAt >= 0.999 * framePeak;
    sinceClipped = fullScale || flat ? 0 : std::min(sinceClipped + 1, kClippedFrames);
    slotPower += power / count;
    if (++slotFrames == kFramesPerSlot) {
        floorSlot = (floorSlot + 1) % kFloorSlots;
        floorSlots[floorSlot] = slotPower / kFramesPerSlot;
        floorCount = std::min(floorCount + 1, kFloorSlots);
        slotPower = 0;
        slotFrames = 0;
    }
    sincePluck = std::min(sincePluck + 1, 1 << 20);
    sinceGate = std::min(sinceGate + 1, 1 << 20);
    lookForGain();
    lookForGate();
    filled = 0;
    power = 0;
    noisePower = 0;
    framePeak = 0;
    longestFlat = 0;
    flatAt = 0;
    fullScale = false;
}

void MicrophoneMonitor::Impl::lookForGain() {
    const int needed = kSettleFrames + static_cast<int>(kSlopeFrames);
    if (gainSeenThisPluck || sincePluck < needed || sincePluck > 300 || frames < kSlopeFrames) {
        return;
    }
    double sum = 0.0;
    double moment = 0.0;
    const double middle = (static_cast<double>(kSlopeFrames) - 1.0) / 2.0;
    for (std::size_t i = 0; i < kSlopeFrames; ++i) {
        sum += noise(i);
        moment += noise(i) * (middle - static_cast<double>(i));
    }
    const auto n = static_cast<double>(kSlopeFrames);
    const double perFrame = moment * 12.0 / (n * (n * n - 1.0));
    const double mean = sum / n;
    double squares = 0.0;
    for (std::size_t i = 0; i < kSlopeFrames; ++i) {
        const double line = mean + perFrame * (middle - static_cast<double>(i));
        squares += (noise(i) - line) * (noise(i) - line);
    }
    const double slope = perFrame / kFrameS;
    if (slope > kSlopeDbPerS && slope < kSteepestDbPerS && std::sqrt(squares / n) < kSmoothDb) {
        gainSeenThisPluck = true;
        ++gainSeen;
    }
}

void MicrophoneMonitor::Impl::lookForGate() {
    constexpr std::size_t kSpan = kPlateauFrames + kFallFrames + kStayFrames;
    if (frames < kSpan || sinceGate < static_cast<int>(kSpan)) {
        return;
    }
    double low = 1e9;
    double high = -1e9;
    for (std::size_t i = kStayFrames + kFallFrames; i < kSpan; ++i) {
        low = std::min(low, noise(i));
        high = std::max(high, noise(i));
    }
    double quietestBefore = 1e9;
    for (std::size_t i = kStayFrames + kFallFrames; i < kSpan; ++i) {
        quietestBefore = std::min(quietestBefore, whole(i));
    }
    double noiseAfter = -1e9;
    double wholeAfter = -1e9;
    for (std::size_t i = 0; i < kStayFrames; ++i) {
        noiseAfter = std::max(noiseAfter, noise(i));
        wholeAfter = std::max(wholeAfter, whole(i));
    }
    constexpr double kSilentDb = -150.0; // nothing at all was there to be gated
    const bool plateau = high - low < 2.0 * kPlateauSpreadDb && low > kSilentDb;
    if (plateau && noiseAfter < low - kGateDb && wholeAfter < quietestBefore - kQuieterDb) {
        ++gateSeen;
        sinceGate = 0;
    }
}

MicrophoneMonitor::MicrophoneMonitor(SampleRate rate) {
    EXPECTS(rate.hz() >= 8000.0 && rate.hz() <= 192000.0);
    impl_ = std::make_unique<Impl>(rate);
}

MicrophoneMonitor::~MicrophoneMonitor() = default;
MicrophoneMonitor::MicrophoneMonitor(MicrophoneMonitor&&) noexcept = default;
MicrophoneMonitor& MicrophoneMonitor::operator=(MicrophoneMonitor&&) noexcept = default;

void MicrophoneMonitor::push(std::span<const float> samples) {
    Impl& self = *impl_;
    for (const float value : samples) {
        const double sample = static_cast<double>(value);
        self.lookForFlatTops(sample);
        const double noise = self.second(self.first(sample));
        self.power += sample * sample;
        self.noisePower += noise * noise;
        if (++self.filled == self.frameLength) {
            self.endFrame();
        }
    }
}

void MicrophoneMonitor::pluck(FrameCount ago) {
    Impl& self = *impl_;
    self.sincePluck = static_cast<int>(std::max<std::int64_t>(0, ago.value()) /
                                       static_cast<std::int64_t>(self.frameLength));
    self.gainSeenThisPluck = false;
}

void MicrophoneMonitor::gap() {
    Impl& self = *impl_;
    self.frames = 0;
    self.filled = 0;
    self.power = 0;
    self.noisePower = 0;
    self.sameRun = 0;
}

MicrophoneState MicrophoneMonitor::state() const {
    const Impl& self = *impl_;
    MicrophoneState state;
    double power = 0.0;
    double peak = 0.0;
    for (int i = 0; i < kLevelFrames; ++i) {
        power += self.recentPower[static_cast<std::size_t>(i)] / kLevelFrames;
        peak = std::max(peak, self.recentPeak[static_cast<std::size_t>(i)]);
    }
    state.level = Decibel::fromPower(power);
    state.peak = Decibel::fromAmplitude(peak);
    double floor = power;
    for (std::size_t i = 0; i < self.floorCount; ++i) {
        const double slot = self.floorSlots[(self.floorSlot + kFloorSlots - i) % kFloorSlots];
        floor = i == 0 ? slot : std::min(floor, slot);
    }
    state.noiseFloor = Decibel::fromPower(floor);
    state.clipped = self.sinceClipped < kClippedFrames;
    state.automaticGain = self.gainSeen >= kTimesSeen;
    state.gated = self.gateSeen >= kTimesSeen;
    return state;
}

} // namespace quillbench
