#pragma once

#include "app/models/pictures.hpp"
#include "core/units/cents.hpp"

#include <QString>
#include <QStringList>
#include <cstddef>
#include <optional>
#include <tuple>
#include <vector>

namespace quillbench {

/// What is said of one string beside its number: shape and word as well as colour.
enum class DriftSign {
    AsTheRest,   ///< a dot
    PlayAgain,   ///< a ring
    Moved,       ///< a filled square: by itself
    NeverSettled ///< a small cross: compared with the temperament
};

/// One string over its key.
struct DriftMark {
    std::size_t key = 0;
    Cents moved;
    Cents uncertainty;
    DriftSign sign = DriftSign::AsTheRest;
    bool listed = false; ///< worth the hammer

    bool operator==(const DriftMark& other) const {
        return std::tie(key, moved, uncertainty, sign, listed) ==
               std::tie(other.key, other.moved, other.uncertainty, other.sign, other.listed);
    }
};

/// A value over a key: what the whole did there, or what the last recheck heard.
struct OverKey {
    std::size_t key = 0;
    Cents cents;

    bool operator==(const OverKey& other) const {
        return std::tie(key, cents) == std::tie(other.key, other.cents);
    }
};

/// How the strings of a choir moved, over the keyboard.
struct DriftPicture {
    std::vector<KeyShown> keys;
    std::vector<DriftMark> marks;  ///< by key
    std::vector<OverKey> expected; ///< what instrument, choir and wire did together, by key
    std::vector<OverKey> ghost;    ///< of the last recheck, by key
    std::optional<std::size_t> asked;
    std::optional<std::size_t> heard; ///< sounds now
    QString ghostName;                ///< "ghost: 2026-11-05"
    QString description;

    bool operator==(const DriftPicture&) const = default;
};

/// One string of the short list.
struct ShortLine {
    QString string;
    QString stands; ///< from what the temperament wants
    QString move;
};

/// What the recheck found, in words.
struct DriftWords {
    QString sentence;            ///< what to do now
    QStringList findings;        ///< the parts of the drift
    QString advice;              ///< leave it, these strings, or move the pitch
    std::vector<ShortLine> list; ///< in the order of what they gain
};

} // namespace quillbench
