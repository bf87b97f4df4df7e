#include "app/cli/svg_drawing.hpp"

#include <algorithm>
#include <array>
#include <cstdarg>
#include <cstdio>

namespace quillbench::cli {

namespace {

std::string escaped(const std::string& text) {
    std::string safe;
    for (const char c : text) {
        switch (c) {
        case '&':
            safe += "&amp;";
            break;
        case '<':
            safe += "&lt;";
            break;
        case '>':
            safe += "&gt;";
            break;
        default:
            safe += c;
        }
    }
    return safe;
}

} // namespace

std::string formatted(const char* format, ...) {
    char buffer[512];
    va_list values;
    va_start(values, format);
    std::vsnprintf(buffer, sizeof buffer, format, values);
    va_end(values);
    return buffer;
}

std::string svgHead(double width, double height) {
    return formatted("<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 %.0f %.0f' "
                     "width='%.0f' height='%.0f' font-family='DejaVu Sans, sans-serif'>\n"
                     "<rect width='100%%' height='100%%' fill='white'/>\n",
                     width,
                     height,
                     width,
                     height);
}

std::string svgLine(double x1, double y1, double x2, double y2, const char* colour, double width) {
    return formatted(
        "<line x1='%.1f' y1='%.1f' x2='%.1f' y2='%.1f' stroke='%s' stroke-width='%.1f'/>\n",
        x1,
        y1,
        x2,
        y2,
        colour,
        width);
}

std::string svgText(double x,
                    double y,
                    const std::string& words,
                    const char* anchor,
                    const char* colour,
                    double size,
                    const char* weight) {
    return formatted("<text x='%.1f' y='%.1f' text-anchor='%s' fill='%s' font-size='%.0f' "
                     "font-weight='%s'>",
                     x,
                     y,
                     anchor,
                     colour,
                     size,
                     weight) +
           escaped(words) + "</text>\n";
}

std::string colourOf(int n, int highest) {
    constexpr std::array<std::array<double, 3>, 4> kStops{
        {{27, 73, 189}, {18, 138, 128}, {196, 120, 8}, {192, 41, 46}}};
    const double place = highest > 1 ? 3.0 * (n - 1) / (highest - 1) : 0.0;
    const auto left = std::min(static_cast<std::size_t>(place), kStops.size() - 2);
    const double part = place - static_cast<double>(left);
    std::array<unsigned, 3> mixed{};
    for (std::size_t i = 0; i < mixed.size(); ++i) {
        mixed[i] =
            static_cast<unsigned>(kStops[left][i] * (1.0 - part) + kStops[left + 1][i] * part);
    }
    return formatted("#%02x%02x%02x", mixed[0], mixed[1], mixed[2]);
}

} // namespace quillbench::cli
