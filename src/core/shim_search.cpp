#include "core/shim_search.hpp"

#include <algorithm>
#include <cmath>

#include "core/limits.hpp"

namespace podwright {

namespace {

/// One thing that can be done to the shims of a side.
struct Edit {
    std::size_t at = 0;    ///< which shim; the number of shims there are = a new one
    double thickness = 0;  ///< put there; 0 = nothing
    double change = 0;     ///< of the sum of shims
    bool none = true;
};

std::vector<Edit> edits_of(const std::vector<double>& shims) {
    std::vector<Edit> edits = {Edit{}};
    edits.reserve((shims.size() + 1) * (usual_shims.size() + 1) + 1);
    for (std::size_t i = 0; i < shims.size(); ++i) {
        edits.push_back({i, 0, -shims[i], false});
        for (double t : usual_shims) edits.push_back({i, t, t - shims[i], false});
    }
    if (shims.size() < find_parameter("left.shims")->longest)
        for (double t : usual_shims) edits.push_back({shims.size(), t, t, false});
    return edits;
}

/// How far beyond the middle of its room to either side a value is: 0 up to there, 1 at the limit.
double nearness(double value, double limit) {
    return limit > 0 ? std::max(0.0, 2 * std::abs(value) / limit - 1) : 0;
}

/// Penalty of the stack after both edits; nothing if a limit is broken. The stack is linear in the
/// sums of shims: by blade A follows, by shoulder F follows.
std::optional<double> penalty(const Setup& setup, const Stack& stack, const Edit& left,
                              const Edit& right) {
    const bool by_blade = setup.axial_float.set_by == FloatBy::blade;
    const double more = left.change + right.change;
    const double axial_float = by_blade ? stack.axial_float : stack.axial_float - more;
    const double width = by_blade ? stack.overall_width + more : stack.overall_width;
    const double shift = stack.shift + (left.change - right.change) / 2;
    // By blade the float is what the blade leaves, whatever the shims.
    if ((!by_blade && float_status(setup, axial_float) != Status::ok) ||
        width_status(setup, width) != Status::ok || shift_status(setup, shift) != Status::ok)
        return {};
    const double middle = (setup.axial_float.low + setup.axial_float.high) / 2;
    const double off = by_blade ? 0 : std::abs(axial_float - middle);
    const int edits = (left.none ? 0 : 1) + (right.none ? 0 : 1);
    // A result near a limit is worth another edit: builds scatter, and half of them would miss it.
    const double near = std::max(nearness(shift, setup.event.shift_max),
                                 nearness(off, setup.axial_float.high - middle));
    return 100.0 * edits + 300 * near + std::abs(shift) + 0.1 * off;
}

std::vector<double> edited(std::vector<double> shims, const Edit& edit) {
    if (edit.none) return shims;
    if (edit.at == shims.size())
        shims.push_back(edit.thickness);
    else if (edit.thickness == 0)
        shims.erase(shims.begin() + static_cast<std::ptrdiff_t>(edit.at));
    else
        shims[edit.at] = edit.thickness;
    return shims;
}

std::string sentence(const std::vector<double>& shims, const Edit& edit, LengthUnit shown) {
    if (edit.at == shims.size()) return "add a " + length(edit.thickness, shown) + " shim";
    const std::string old = "the " + length(shims[edit.at], shown) + " shim";
    if (edit.thickness == 0) return "take out " + old;
    return "swap " + old + " for " + length(edit.thickness, shown);
}

}  // namespace

std::optional<ShimEdit> find_shims(const Setup& setup, const Stack& stack, LengthUnit shown) {
    const std::vector<Edit> left = edits_of(setup.left.shims);
    const std::vector<Edit> right = edits_of(setup.right.shims);
    const Edit* best_left = nullptr;
    const Edit* best_right = nullptr;
    double least = 0;
    for (const Edit& l : left)
        for (const Edit& r : right) {
            const auto p = penalty(setup, stack, l, r);
            if (p && (!best_left || *p < least - length_tolerance)) {
                least = *p;
                best_left = &l;
                best_right = &r;
            }
        }
    if (!best_left || (best_left->none && best_right->none)) return {};

    ShimEdit result;
    if (!best_left->none) {
        result.changes.push_back({"left.shims", 0, edited(setup.left.shims, *best_left)});
        result.text = "left: " + sentence(setup.left.shims, *best_left, shown);
    }
    if (!best_right->none) {
        result.changes.push_back({"right.shims", 0, edited(setup.right.shims, *best_right)});
        if (!result.text.empty()) result.text += "; ";
        result.text += "right: " + sentence(setup.right.shims, *best_right, shown);
    }
    return result;
}

}  // namespace podwright
