#pragma once

#include <string>
#include <string_view>

namespace podwright {

/// What lengths are shown in. They are always calculated in mm.
enum class LengthUnit { mm, inch };

/// `value` with this many decimals, independent of the locale; never "-0.00".
std::string fixed(double value, int decimals);

/// An angle in rad as shown, "0.26°", "0.035°": small ones with three decimals.
std::string angle(double rad);

/// A length in mm as shown: "0.15 mm" or "0.0059 in".
std::string length(double mm, LengthUnit shown);

/// How a reading is written: its unit as people write it, and the factor and decimals that go with
/// it. `unit` as readings name it ("mm", "deg", "N/mm2", ...).
struct Written {
    std::string unit;
    double factor;
    int decimals;
};
Written written_as(std::string_view unit, LengthUnit shown);

/// A value in its unit ("mm", "deg", "kg", ... or none): lengths as shown, whole numbers from 1 on
/// without decimals, others with two.
std::string amount(double value, std::string_view unit, LengthUnit shown);

/// A likelihood: "59 %", "< 1 %", "> 99 %".
std::string likelihood(double share);

}  // namespace podwright
