#pragma once

#include "app/views/place_bar.hpp"

#include <array>

namespace quillbench::test {

inline constexpr std::array kAllPlaces{Place::Instrument,
                                       Place::Temperament,
                                       Place::Tune,
                                       Place::Recheck,
                                       Place::Action,
                                       Place::Practise,
                                       Place::Logbook};

} // namespace quillbench::test
