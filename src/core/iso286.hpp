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

enum class FitPart { hole, shaft };

/// The tightest fit without interference that another class of one part makes, its grade kept:
/// shafts g, f ("H7/k6" becomes "H7/g6", which ISO 286 prefers for sliding; from memory), holes H,
/// G, F. Nothing if none clears the other part, or if `designation` is no fit.
std::optional<std::string> freed_fit(std::string_view designation, double nominal, FitPart anew);

}  // namespace podwright
