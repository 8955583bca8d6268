#pragma once
// The tape label, drawn: a PNG for looking and for plain printers, a PDF for all others.
//   Units   millimetres. Tape of 48 mm, what shops tear off as "two inch": 20 mm of numerals leave room for two lines below.
//           As long as it must be, 90 mm at least
//   Letters the numerals' height is measured, not trusted: 20 mm of ink from foot to top of a "1". Names are set smaller, then
//           in more lines, then the label grows: nothing is cut. Any writing direction; bytes that are no text show as such
//   Refuses in words, when a file cannot be written

#include <optional>
#include <string>

#include "client/label/label.h"

namespace squeezeout::label {

inline constexpr double kTapeMm = 48, kNumeralMm = 20, kMarginMm = 3, kLeastLengthMm = 90;
inline constexpr double kDotsPerInch = 300;

// How long the label comes to be.
[[nodiscard]] double length_mm(const Label& label);

[[nodiscard]] std::optional<words::Told> write_png(const Label& label, const std::string& file);
[[nodiscard]] std::optional<words::Told> write_pdf(const Label& label, const std::string& file);

}  // namespace squeezeout::label
