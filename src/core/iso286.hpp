#pragma once

#include <optional>
#include <string>
#include <string_view>

// Limits and fits after ISO 286 for diameters up to 30 mm. mm.
namespace podwright {

/// Deviations from the nominal size.
struct Deviations {
    double lower, upper;
};

/// A tolerance class, "H7" (hole: capital letter) or "g6" (shaft), at a nominal size over 0 up to
/// 30 mm. Holes: F G H JS; shafts: f g h js k m n p; grades 5 to 9. Nothing if it is none of these.
std::optional<Deviations> tolerance_class(std::string_view designation, double nominal);

struct IsoFit {
    Deviations hole, shaft;
    double clearance_low() const { return hole.lower - shaft.upper; }  ///< < 0: interference
    double clearance_high() const { return hole.upper - shaft.lower; }
};

/// "H7/g6" at a nominal size, or nothing.
std::optional<IsoFit> find_fit(std::string_view designation, double nominal);

}  // namespace podwright
