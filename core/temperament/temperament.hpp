#pragma once

#include "core/pitch/note.hpp"
#include "core/pitch/reference.hpp"
#include "core/support/result.hpp"
#include "core/units/cents.hpp"
#include "core/units/hertz.hpp"
#include "core/units/ratio.hpp"

#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

namespace quillbench {

/// How far the definition of a temperament was checked against its source.
enum class DefinitionStatus {
    Verified,       ///< seen in a text that quotes the source
    PartlyVerified, ///< some of it seen, the rest from memory or a reading
    FromMemory,     ///< not looked up
    Own,            ///< made by the person at the bench
};

/// What is known of a temperament beside its sizes.
struct TemperamentDescription {
    std::string id;           ///< kebab case, ASCII
    std::string name;         ///< as the trade calls it
    std::string year;         ///< free text: "1691", "about 1690"
    std::string source;       ///< where it was published
    std::string statusNote;   ///< what was checked, against what
    std::string disagreement; ///< what scholars disagree on; may be empty
    DefinitionStatus status = DefinitionStatus::Own;
};

/// A tuning of the octave as a chain of spelled fifths (E♭–B♭–F–C … C♯–G♯). Twelve notes close into a circle,
/// whose last fifth is what the others leave; more than twelve (split sharps) stay an open chain.
/// **Thread** any; immutable.
class Temperament {
public:
    /// From the tempering of each fifth, going up the chain from `first`. Eleven fifths make twelve notes and the
    /// closing fifth is computed; with exactly twelve the last is the closing one and the circle has to close
    /// (1e-6 cent); n − 1 ≥ 12 fifths for n notes need `openChain`.
    /// **Range** 11 to 34 fifths, each within ±100 cents; chain within F♭♭ … B♯♯.
    /// **Errors** BadArgument naming the field; a circle that does not close says by how many cents.
    [[nodiscard]] static Result<Temperament> fromFifths(TemperamentDescription description,
                                                        PitchClass first,
                                                        std::vector<Tempering> fifths,
                                                        bool openChain = false);

    /// From cents above C for at least twelve notes whose names make one unbroken chain of fifths, in any order.
    /// **Range** cents in [0, 1200), each fifth of the chain within ±100 cents of pure.
    /// **Errors** BadArgument naming note, value and allowed range.
    [[nodiscard]] static Result<Temperament>
    fromCents(TemperamentDescription description,
              const std::vector<std::pair<PitchClass, Cents>>& notes);

    [[nodiscard]] const TemperamentDescription& description() const { return description_; }

    [[nodiscard]] const std::string& id() const { return description_.id; }

    /// The notes up the chain of fifths.
    [[nodiscard]] std::span<const PitchClass> notes() const { return notes_; }

    /// Temperings up the chain: fifths()[i] lies between notes()[i] and notes()[i + 1]; for twelve notes the
    /// twelfth, from the last note to the first, closes the circle.
    [[nodiscard]] std::span<const Tempering> fifths() const { return fifths_; }

    [[nodiscard]] bool isCircle() const { return fifths_.size() == notes_.size(); }

    /// A circle whose closing fifth is no wolf (within half a Pythagorean comma of pure), so that every note
    /// may also be read by its other name.
    [[nodiscard]] bool closesWithoutWolf() const;

    /// All fifths but the closing one are alike (within 1e-9 cent).
    [[nodiscard]] bool isRegular() const;

    /// How much twelve fifths up the chain, less seven octaves, miss the note they started from: 0 for a
    /// circle, the enharmonic difference (D♯ above E♭ positive) for an open chain.
    [[nodiscard]] Cents closes() const;

    [[nodiscard]] bool contains(PitchClass note) const;

    /// Where a note is played: itself, or the note of the chain on the same key (A♭ where only G♯ is there).
    [[nodiscard]] PitchClass played(PitchClass note) const;

    /// Cents above C of the key that plays `note`, in [0, 1200).
    [[nodiscard]] Cents centsFromC(PitchClass note) const;

    /// Cents by which `note` differs from equal temperament when `anchor` agrees with it.
    [[nodiscard]] Cents offsetFromEqual(PitchClass note, PitchClass anchor = {Letter::A, 0}) const;

    /// The same pattern moved so that what C was is now `root`. Where the circle has a wolf the spelled notes
    /// move too; where it closesWithoutWolf the note names stay and the pattern turns.
    /// **Errors** BadArgument when the chain would leave F♭♭ … B♯♯.
    [[nodiscard]] Result<Temperament> withRoot(PitchClass root) const;

    /// A regular temperament with more notes, for split sharps: the chain runs from `first` to `last`.
    /// **Errors** BadArgument when not regular, or fewer than twelve notes.
    [[nodiscard]] Result<Temperament> extended(PitchClass first, PitchClass last) const;

    /// The same sizes under another description.
    [[nodiscard]] Temperament described(TemperamentDescription description) const;

private:
    Temperament(TemperamentDescription description,
                std::vector<PitchClass> notes,
                std::vector<Tempering> fifths);

    [[nodiscard]] std::size_t indexOf(PitchClass note) const;

    TemperamentDescription description_;
    std::vector<PitchClass> notes_;
    std::vector<Tempering> fifths_;
    std::vector<Cents> deviation_; ///< from equal temperament, C's key = 0
};

/// How far the fifths of a circle are from closing it: their temperings added, plus a Pythagorean comma.
[[nodiscard]] Cents openBy(std::span<const Tempering> twelveFifths);

/// The same keys spelled so that the circle's only wolf (further from pure than half a Pythagorean comma) lies where
/// the chain ends: meantone whose wolf is E♭–B♭ has D♯. As it is where no fifth or more than one is a wolf, where a
/// white key would lose its name, and for an open chain.
[[nodiscard]] Temperament spelledByWolf(const Temperament& temperament);

/// The pitch of a note on an 8′ string. **Accuracy** 1e-12 relative.
[[nodiscard]] Hertz pitchOf(const Temperament& temperament, ReferencePitch reference, Note note);

/// The key that plays `note`, by the name that the chain gives it (B3 for C♭4 where there is no C♭).
[[nodiscard]] Note playedKey(const Temperament& temperament, const Note& note);

/// A temperament at a pitch standard: what the strings are tuned to. **Thread** any; immutable.
struct TunedScale {
    Temperament temperament;
    ReferencePitch reference;

    [[nodiscard]] Hertz pitchOf(Note note) const {
        return quillbench::pitchOf(temperament, reference, note);
    }
};

} // namespace quillbench
