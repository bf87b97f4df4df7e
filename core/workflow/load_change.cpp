#include "core/workflow/load_change.hpp"

#include <algorithm>

namespace quillbench {

LoadChange loadChange(const Instrument& instrument,
                      const TunedScale& now,
                      const TunedScale& then,
                      int position) {
    LoadChange change;
    for (std::size_t choir = 0; choir < instrument.choirs.size(); ++choir) {
        ChoirLoad load{choir, {}, {}};
        const std::vector<StringMake>& makes = instrument.choirs[choir].strings;
        for (std::size_t course = 0; course < makes.size(); ++course) {
            const StringId string{choir, course};
            const auto pitchIn = [&](const TunedScale& scale) {
                return targetPitch(
                    instrument,
                    string,
                    [&scale](const Note& note) { return scale.pitchOf(note); },
                    position);
            };
            const Hertz from = pitchIn(now);
            const Hertz to = pitchIn(then);
            change.strings.push_back({string,
                                      interval(from, to),
                                      stringState(makes[course], from),
                                      stringState(makes[course], to)});
            load.now = load.now + change.strings.back().now.tension;
            load.then = load.then + change.strings.back().then.tension;
        }
        change.choirs.push_back(load);
        change.now = change.now + load.now;
        change.then = change.then + load.then;
    }
    return change;
}

std::vector<StringChange> stringsWithin(const LoadChange& change, double margin) {
    std::vector<StringChange> near;
    for (const StringChange& one : change.strings) {
        if (one.then.margin.lowSemitones < margin) {
            near.push_back(one);
        }
    }
    std::stable_sort(near.begin(), near.end(), [](const StringChange& a, const StringChange& b) {
        return a.then.margin.lowSemitones < b.then.margin.lowSemitones;
    });
    return near;
}

} // namespace quillbench
