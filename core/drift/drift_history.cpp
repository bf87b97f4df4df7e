#include "core/drift/drift_history.hpp"

#include "core/support/contract.hpp"

#include <cmath>
#include <map>

namespace quillbench {

namespace {

/// Settled on the same day: by the same reading.
constexpr double kSameDay = 1e-6;

/// What one string did by itself, look by look.
struct OwnMoves {
    std::vector<Cents> moved;
    double squares = 0.0; ///< of the standard deviations, added
    double settledOn = 0.0;
    Cents standing;              ///< at the last look, from where it was settled
    double standingSquare = 0.0; ///< of its standard deviation

    /// What it did since the last look; since it was settled, where that came later.
    void add(double day, Cents own, double square) {
        const bool same = !moved.empty() && std::abs(day - settledOn) < kSameDay;
        moved.push_back(same ? own - standing : own);
        squares += square + (same ? standingSquare : 0.0);
        settledOn = day;
        standing = own;
        standingSquare = square;
    }

    [[nodiscard]] Cents deviation() const {
        return Cents(std::sqrt(squares / static_cast<double>(moved.size())));
    }
};

void addOwnMoves(std::map<StringId, OwnMoves>& own,
                 const Instrument& instrument,
                 const std::vector<Movement>& movements,
                 const std::vector<double>& settledOn) {
    const DriftFit fit = fitDrift(instrument, movements);
    for (std::size_t i = 0; i < movements.size(); ++i) {
        const double deviation = std::hypot(movements[i].uncertainty.value(), fit.scatter.value());
        own[movements[i].string].add(settledOn[i], fit.strings[i].own, deviation * deviation);
    }
}

} // namespace

Tendencies
tendenciesOf(const Instrument& instrument, std::span<const DriftLook> looks, Cents tolerance) {
    Tendencies tendencies;
    std::vector<DriftSighting> sightings;
    std::map<StringId, OwnMoves> own;
    for (const DriftLook& look : looks) {
        EXPECTS(look.days.size() == look.movements.size());
        EXPECTS(look.settledOn.size() == look.movements.size());
        std::vector<Movement> counted;
        std::vector<double> settledOn;
        for (std::size_t i = 0; i < look.movements.size(); ++i) {
            const Movement& one = look.movements[i];
            if (look.days[i] >= kSoonestLook) {
                sightings.push_back({one.string, look.days[i], one.moved, one.uncertainty});
                counted.push_back(one);
                settledOn.push_back(look.settledOn[i]);
            }
        }
        if (!counted.empty()) {
            ++tendencies.looks;
            addOwnMoves(own, instrument, counted, settledOn);
        }
    }
    const DriftRates rates = driftRates(instrument, sightings);
    tendencies.choirs = rates.choirs;
    tendencies.due = retuneDue(rates, tolerance);
    for (const DriftRate& rate : rates.strings) {
        const OwnMoves& moves = own.at(rate.string);
        tendencies.strings.push_back({rate, habitOf(moves.moved, moves.deviation()), moves.moved});
    }
    return tendencies;
}

} // namespace quillbench
