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

/// A unit as people write it, for one as readings and keys name it: "N/mm²" for "N/mm2", "°" for
/// "deg".
std::string unit_text(std::string_view unit);

/// `number` with its unit as people write it behind it: "57.0 N/mm²", "0.11°", "1.55".
std::string with_unit(const std::string& number, std::string_view unit);

/// How a reading is written: its unit as people write it, and the factor and decimals that go with
/// it. `unit` as readings name it ("mm", "deg", "N/mm2", ...).
struct Written {
    std::string unit;
    double factor;
    int decimals;
    double most = 1e300;  ///< what is more means no more than that
};
Written written_as(std::string_view unit, LengthUnit shown);

/// The number of a reading that is written `as`: "1.55", "over 100" for a safety of 300.
std::string number_as(const Written& as, double value);

/// Decimals that show `limit` as it was meant: `least`, or up to 3 where those make it exact.
int limit_decimals(double limit, int least);

/// A value in its unit ("mm", "deg", "kg", ... or none): lengths as shown, whole numbers from 1 on
/// without decimals, others with those of a reading in that unit, or up to 3 that make them exact.
std::string amount(double value, std::string_view unit, LengthUnit shown);

/// What two limits allow, each as written or empty: "3 to 5", "at least 3", "at most 5", "".
std::string range_text(const std::string& low, const std::string& high);

/// A likelihood: "59 %", "< 1 %", "> 99 %".
std::string likelihood(double share);

}  // namespace podwright
