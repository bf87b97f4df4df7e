#pragma once

#include <string>

namespace quillbench::cli {

// What the pictures of the command line are drawn with: SVG 1.1, lengths in its user units, colours as #rrggbb.

inline constexpr const char* kInk = "#1d2733";
inline constexpr const char* kFaint = "#8a94a0";
inline constexpr const char* kReading = "#0b6e4f"; ///< what was read, and what is said of it

/// Text with printf's formats.
[[gnu::format(printf, 1, 2)]] std::string formatted(const char* format, ...);

/// The beginning of a picture of this size, with a white ground; "</svg>" ends it.
[[nodiscard]] std::string svgHead(double width, double height);

[[nodiscard]] std::string
svgLine(double x1, double y1, double x2, double y2, const char* colour, double width);

/// `words` may hold anything; they are escaped.
[[nodiscard]] std::string svgText(double x,
                                  double y,
                                  const std::string& words,
                                  const char* anchor = "start",
                                  const char* colour = kInk,
                                  double size = 14.0,
                                  const char* weight = "normal");

/// Blue for partial 1, over green, to red for the highest. **Range** 1 ≤ n ≤ highest.
[[nodiscard]] std::string colourOf(int n, int highest);

} // namespace quillbench::cli
