#include "choose/steps.hpp"

#include <algorithm>
#include <cmath>

#include "choose/box_names.hpp"
#include "choose/limit.hpp"
#include "core/material.hpp"

namespace podwright {

namespace {

std::string title(Side side) { return side == Side::left ? "Left" : "Right"; }
std::string table(Side side) { return side == Side::left ? "left." : "right."; }

/// "0.30 mm", "0.50 mm, 0.30 mm and 2 x 0.10 mm"
std::string listed(std::vector<double> shims, LengthUnit shown) {
    std::sort(shims.begin(), shims.end(), std::greater<>());
    std::vector<std::string> sizes;
    for (std::size_t i = 0; i < shims.size();) {
        std::size_t count = 1;
        while (i + count < shims.size() && std::abs(shims[i + count] - shims[i]) < 1e-9) ++count;
        sizes.push_back((count > 1 ? std::to_string(count) + " x " : "") + length(shims[i], shown));
        i += count;
    }
    std::string text;
    for (std::size_t i = 0; i < sizes.size(); ++i)
        text += (i == 0 ? "" : i + 1 < sizes.size() ? ", " : " and ") + sizes[i];
    return text;
}

/// What of `all` is left when each of `without` is taken once.
std::vector<double> rest(const std::vector<double>& all, std::vector<double> without) {
    std::vector<double> left;
    for (const double shim : all) {
        const auto found = std::find_if(without.begin(), without.end(), [&](double other) {
            return std::abs(other - shim) < 1e-9;
        });
        if (found == without.end())
            left.push_back(shim);
        else
            without.erase(found);
    }
    return left;
}

class Steps {
public:
    Steps(const Setup& from, const Setup& to, LengthUnit shown)
        : from_(from), to_(to), shown_(shown) {}

    std::vector<Step> all() {
        for (const Side side : both_sides) add_holder(side);
        add_axle();
        for (const Side side : both_sides) add_shims(side);
        add_float();
        add_gears();
        for (const Side side : both_sides) add_wheel(side);
        add_mesh();
        return std::move(steps_);
    }

private:
    /// Edits of those of the keys whose values differ; nothing is added if none does.
    std::vector<Change> edits(std::initializer_list<std::string> keys) const {
        std::vector<Change> changes;
        for (const std::string& key : keys) {
            const Parameter& p = *find_parameter(key);
            if (p.kind == ValueKind::list) {
                if (p.get_list(from_) != p.get_list(to_))
                    changes.push_back({key, 0, p.get_list(to_)});
            } else if (p.get(from_) != p.get(to_) && p.get(to_)) {
                changes.push_back({key, *p.get(to_), {}});
            }
        }
        return changes;
    }

    void add(std::string text, std::vector<Change> changes) {
        if (!changes.empty()) steps_.push_back({std::move(text), std::move(changes)});
    }

    static bool differ(double a, double b) { return std::abs(a - b) > 1e-9; }

    static const char* shim_word(const std::vector<double>& shims) {
        return shims.size() == 1 ? " shim" : " shims";
    }

    /// "the axle", "the axle \"light\"", "the tyre \"fresh\" or \"spare\"" where both are the same.
    static std::string called(const char* what, const std::vector<std::string>& names) {
        std::string text = "the " + std::string(what);
        for (std::size_t i = 0; i < names.size(); ++i)
            text += (i == 0 ? " \"" : " or \"") + names[i] + "\"";
        return text;
    }

    std::string mm(double value) const { return length(value, shown_); }

    void add_holder(Side side) {
        const AxleSide& was = from_.side(side);
        const AxleSide& is = to_.side(side);
        const std::string way = is.holder_way == Way::up ? "up" : "down";
        const bool turned = was.holder_step == is.holder_step && is.holder_step > 0;
        add(title(side) + ": " +
                (turned ? "turn the " + mm(is.holder_step) + " holder over, " + way
                        : "fit the " + mm(is.holder_step) + " holder" +
                              (is.holder_step > 0 ? ", " + way : "")) +
                ".",
            edits({table(side) + "holder_step", table(side) + "holder_way"}));
    }

    void add_axle() {
        const Axle& is = to_.axle;
        std::string text = "Fit " + called("axle", axle_names(to_)) + ": " +
                           std::string(data(is.material).title) + ", waist " + mm(is.waist) + ", " +
                           (is.bore > 0 ? "bore " + mm(is.bore) : "solid");
        if (differ(from_.axial_float.shoulder, to_.axial_float.shoulder))
            text += ", " + mm(to_.axial_float.shoulder) + " between its thrust faces";
        add(text + ".", edits({"axle.waist", "axle.bore", "axle.material", "float.shoulder"}));
    }

    void add_shims(Side side) {
        const auto& was = from_.side(side).shims;
        const auto& is = to_.side(side).shims;
        const std::vector<double> gone = rest(was, is);
        const std::vector<double> come = rest(is, was);
        const std::string out = listed(gone, shown_);
        const std::string in = listed(come, shown_);
        std::string text = title(side) + ": ";
        if (!out.empty()) text += "take out the " + out + shim_word(gone);
        if (!out.empty() && !in.empty()) text += ", ";
        if (!in.empty())
            text += "put in " + std::string(come.size() == 1 && out.empty() ? "a " : "") + in +
                    (out.empty() ? shim_word(come) : "");
        if (out.empty() && in.empty()) text += "put the shims in another order";
        add(text + ".", edits({table(side) + "shims"}));
    }

    void add_float() {
        add("Loosen the left hub and clamp it again against the " + mm(to_.axial_float.blade) +
                " blade.",
            edits({"float.blade"}));
    }

    void add_gears() {
        add("Fit the " + std::to_string(to_.gears.spur) + "-tooth spur.", edits({"gears.spur"}));
        add("Fit the " + std::to_string(to_.gears.pinion) + "-tooth pinion.",
            edits({"gears.pinion"}));
    }

    void add_wheel(Side side) {
        const AxleSide& was = from_.side(side);
        const AxleSide& is = to_.side(side);
        const std::string at = table(side);
        add(title(side) + ": fit " + called("wheel", wheel_names(to_, side)) + " of " +
                mm(is.inset) + " inset" +
                (differ(was.rim_diameter, is.rim_diameter)
                     ? ", " + mm(is.rim_diameter) + " at the rim"
                     : "") +
                ".",
            edits({at + "inset", at + "rim_diameter"}));
        const TyreNames tyre = tyre_names(to_, side);
        add(title(side) + ": fit " + called("tyre", tyre.names) + " of " + mm(is.tyre.diameter) +
                tyre_difference(was.tyre, is.tyre) +
                (tyre.glued_to.empty()
                     ? ""
                     : ", which is glued to the wheel \"" + tyre.glued_to + "\"") +
                ".",
            edits({at + "tyre_diameter", at + "tyre_width", at + "tyre_worn",
                   at + "tyre_stiffness"}));
    }

    /// What tells it from the one that is on, beside its diameter.
    std::string tyre_difference(const Tyre& was, const Tyre& is) const {
        std::string text;
        if (differ(was.width, is.width)) text += ", " + mm(is.width) + " wide";
        if (differ(was.worn_diameter, is.worn_diameter))
            text += ", done below " + mm(is.worn_diameter);
        if (differ(was.stiffness, is.stiffness))
            text += is.stiffness > 0 ? ", stiffness " + fixed(is.stiffness, 1) + " N/mm"
                                     : ", which does not sag";
        return text;
    }

    void add_mesh() {
        const Drive was = calculate(from_).drive;
        const Drive is = calculate(to_).drive;
        std::vector<Change> changes = edits({"motor.clamped_at"});
        const bool moved = std::abs(was.slot.position - is.slot.position) > 5e-4;
        if (!moved && changes.empty()) return;
        steps_.push_back({"Set the mesh again: the motor at " + mm(is.slot.position) +
                              " on its slot, " + mm(is.mesh.backlash) + " of backlash.",
                          std::move(changes)});
    }

    const Setup& from_;
    const Setup& to_;
    LengthUnit shown_;
    std::vector<Step> steps_;
};

}  // namespace

std::vector<Step> steps_between(const Setup& from, const Setup& to, LengthUnit shown) {
    return Steps(from, to, shown).all();
}

}  // namespace podwright
