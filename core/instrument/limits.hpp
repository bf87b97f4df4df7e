#pragma once

#include <cstddef>

namespace quillbench {

/// Values outside are taken for slips of the pen. Both ends belong to it.
struct Limits {
    double low = 0.0;
    double high = 0.0;

    /// False for what is not a number.
    [[nodiscard]] constexpr bool holds(double value) const { return value >= low && value <= high; }
};

inline constexpr Limits kLengthLimits{20.0, 4000.0};       ///< speaking length in mm
inline constexpr Limits kDiameterLimits{0.05, 3.0};        ///< wire in mm
inline constexpr Limits kPinLimits{2.0, 12.0};             ///< tuning pin in mm
inline constexpr Limits kStringPitchLimits{10.0, 10000.0}; ///< Hz
inline constexpr Limits kPitchStandardLimits{300.0,
                                             600.0};  ///< a′ in Hz; A. J. Ellis found 374 … 567
inline constexpr Limits kPluckPointLimits{0.01, 0.5}; ///< of the speaking length
inline constexpr Limits kStaggerLimits{0.0, 15.0};    ///< mm of key travel
inline constexpr Limits kPositionLimits{-12.0, 12.0}; ///< semitones
inline constexpr Limits kColumnLimits{0.0, 100.0};    ///< natural key widths
inline constexpr Limits kPinPlaceLimits{0.0, 1000.0}; ///< rows and places, as files may have them
/// As they are entered. Common practice, no source: a row for each choir or two, a pin for each string.
inline constexpr Limits kPinRowsEntered{0.0, 12.0};
inline constexpr Limits kPinPlacesEntered{0.0, 400.0};

inline constexpr std::size_t kMostManuals = 3;
inline constexpr std::size_t kMostChoirs = 8;
inline constexpr std::size_t kMostKeys = 128;
inline constexpr std::size_t kMostStrings = kMostKeys + 24; ///< keys and the shift of the keyboard
inline constexpr std::size_t kMostPositions = 8;

} // namespace quillbench
