#include "core/support/excerpt.hpp"

namespace quillbench {

namespace {

bool continues(std::string_view text, std::size_t at) {
    return at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0U) == 0x80U;
}

} // namespace

std::size_t characterAt(std::string_view text, std::size_t at) {
    const auto first = static_cast<unsigned char>(text[at]);
    const auto second = at + 1 < text.size() ? static_cast<unsigned char>(text[at + 1])
                                             : static_cast<unsigned char>(0);
    if (first < 0x80U) {
        return first == 0 ? 0 : 1;
    }
    if (first >= 0xC2U && first <= 0xDFU) {
        return continues(text, at + 1) ? 2 : 0;
    }
    if (first >= 0xE0U && first <= 0xEFU) {
        const bool sound = continues(text, at + 1) && continues(text, at + 2) &&
                           !(first == 0xE0U && second < 0xA0U) &&
                           !(first == 0xEDU && second >= 0xA0U);
        return sound ? 3 : 0;
    }
    if (first >= 0xF0U && first <= 0xF4U) {
        const bool sound = continues(text, at + 1) && continues(text, at + 2) &&
                           continues(text, at + 3) && !(first == 0xF0U && second < 0x90U) &&
                           !(first == 0xF4U && second >= 0x90U);
        return sound ? 4 : 0;
    }
    return 0;
}

std::string excerpt(std::string_view text, std::size_t most) {
    std::string shown;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t length = characterAt(text, at);
        const auto first = static_cast<unsigned char>(text[at]);
        const bool control = first < 0x20U || first == 0x7FU;
        const std::string_view one =
            length == 0 || control ? std::string_view("?") : text.substr(at, length);
        if (shown.size() + one.size() > most) {
            return shown + "...";
        }
        shown += one;
        at += length == 0 ? 1 : length;
    }
    return shown;
}

} // namespace quillbench
