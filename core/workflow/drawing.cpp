#include "core/workflow/drawing.hpp"

#include "core/support/contract.hpp"

#include <algorithm>

namespace quillbench {

namespace {

constexpr int kFeltTrouble = 100;
constexpr int kTwoManualsTrouble = 50;
constexpr int kCouplerTrouble = 10;

bool has(const std::vector<std::size_t>& choirs, std::size_t choir) {
    return std::find(choirs.begin(), choirs.end(), choir) != choirs.end();
}

bool playedFrom(const Instrument& instrument, std::size_t row, std::size_t manual, bool coupled) {
    const JackRegister& jacks = instrument.registers[row];
    const bool engages =
        instrument.coupler == Coupler::Shove || instrument.coupler == Coupler::Lever;
    return jacks.manual == manual || jacks.dogleg ||
           (engages && coupled && manual == 0 && jacks.manual == 1);
}

bool cannotBeWithdrawn(const Choir& choir) {
    return choir.silencing == Silencing::NotAtAll || choir.silencing == Silencing::FeltStrip;
}

/// The row that plays a choir from a manual, an ordinary one before one at the nut.
std::optional<std::size_t>
rowFrom(const Instrument& instrument, std::size_t choir, std::size_t manual, bool coupled) {
    std::optional<std::size_t> found;
    for (std::size_t row = 0; row < instrument.registers.size(); ++row) {
        if (instrument.registers[row].choir == choir &&
            playedFrom(instrument, row, manual, coupled) &&
            (!found || (instrument.registers[*found].lute && !instrument.registers[row].lute))) {
            found = row;
        }
    }
    return found;
}

bool risesWithKeys(const Instrument& instrument, std::size_t row, const Drawing& drawing) {
    return playedFrom(instrument, row, drawing.manual, drawing.registration.coupled) ||
           (drawing.otherManual &&
            playedFrom(instrument, row, *drawing.otherManual, drawing.registration.coupled));
}

void addFeltFor(const Instrument& instrument, std::size_t row, Drawing& drawing) {
    const std::size_t choir = instrument.registers[row].choir;
    if (risesWithKeys(instrument, row, drawing) && !has(drawing.choirs, choir) &&
        !has(drawing.felt, choir)) {
        drawing.felt.push_back(choir);
    }
}

/// Puts felt to whatever sounds along from the manuals that are played.
void addFelt(const Instrument& instrument, Drawing& drawing) {
    for (std::size_t row = 0; row < instrument.registers.size(); ++row) {
        if (cannotBeWithdrawn(instrument.choirs[instrument.registers[row].choir])) {
            drawing.registration.on[row] = true;
            addFeltFor(instrument, row, drawing);
        }
    }
}

std::optional<Drawing> tryDrawing(const Instrument& instrument,
                                  const std::vector<std::size_t>& choirs,
                                  std::size_t manual,
                                  bool coupled,
                                  std::optional<std::size_t> otherManual) {
    Drawing drawing;
    drawing.manual = manual;
    drawing.choirs = choirs;
    drawing.registration.coupled = coupled;
    for (const std::size_t choir : choirs) {
        std::optional<std::size_t> row = rowFrom(instrument, choir, manual, coupled);
        if (!row && otherManual) {
            row = rowFrom(instrument, choir, *otherManual, coupled);
            drawing.otherManual = otherManual;
        }
        if (!row) {
            return std::nullopt;
        }
        drawing.registration.on[*row] = true;
    }
    addFelt(instrument, drawing);
    return drawing;
}

} // namespace

Drawing withFeltOnSilenced(const Instrument& instrument, Drawing drawing) {
    for (std::size_t row = 0; row < instrument.registers.size(); ++row) {
        addFeltFor(instrument, row, drawing);
    }
    return drawing;
}

int troubleOf(const Drawing& drawing) {
    return kFeltTrouble * static_cast<int>(drawing.felt.size()) +
           (drawing.otherManual ? kTwoManualsTrouble : 0) +
           (drawing.registration.coupled ? kCouplerTrouble : 0);
}

Drawing
drawingFor(const Instrument& instrument, const std::vector<std::size_t>& choirs, int position) {
    EXPECTS(!choirs.empty());
    std::optional<Drawing> best;
    const std::size_t manuals = instrument.manuals.empty() ? 1 : instrument.manuals.size();
    const auto consider = [&](std::size_t manual, bool coupled, std::optional<std::size_t> other) {
        const auto drawing = tryDrawing(instrument, choirs, manual, coupled, other);
        if (drawing && (!best || troubleOf(*drawing) < troubleOf(*best))) {
            best = drawing;
        }
    };
    for (std::size_t manual = 0; manual < manuals; ++manual) {
        for (const bool coupled : {false, true}) {
            consider(manual, coupled, std::nullopt);
            for (std::size_t other = 0; other < manuals; ++other) {
                if (other != manual) {
                    consider(manual, coupled, other);
                }
            }
        }
    }
    if (!best) {
        best = Drawing{};
        best->choirs = choirs;
    }
    best->registration.position = position;
    return *best;
}

} // namespace quillbench
