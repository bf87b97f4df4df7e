#pragma once

#include "core/instrument/examples.hpp"
#include "core/temperament/catalogue.hpp"
#include "core/temperament/temperament.hpp"

namespace quillbench::test {

/// The strings that the tests practise on.
inline const Instrument& practised() {
    return *findExample("double-8-8-4");
}

inline Hertz tempered(const Note& note) {
    return pitchOf(*findTemperament("werckmeister-3"), ReferencePitch{}, note);
}

} // namespace quillbench::test
