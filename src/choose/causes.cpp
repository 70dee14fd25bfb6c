#include "choose/causes.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "choose/effects.hpp"
#include "choose/limit.hpp"
#include "core/parameters.hpp"

namespace podwright {

namespace {

/// What moves on a car, in the order in which one thing moves the next.
struct Moved {
    const char* reading;
    bool is_length;
    const char* up;  ///< with the amount in place of "#"
    const char* down;
    double (*of)(const Calculated&);
};

constexpr std::array<Moved, 12> chain = {
    {{"pod.axle", true, "axle # higher in the pod", "axle # lower in the pod",
      [](const Calculated& c) { return c.stance.axle_in_pod; }},
     {"axle.height", true, "axle # farther above the ground", "axle # nearer the ground",
      [](const Calculated& c) { return c.stance.axle_height; }},
     {"ride.rear", true, "car # higher", "car # lower",
      [](const Calculated& c) { return c.stance.ride; }},
     {"ride.roll", false, "left side up by #", "right side up by #",
      [](const Calculated& c) { return degrees(c.stance.roll); }},
     {"ride.rake", false, "nose down by #", "nose up by #",
      [](const Calculated& c) { return degrees(c.stance.rake); }},
     {"mesh.distance_unset", true, "gears # apart", "gears # closer",
      [](const Calculated& c) { return c.drive.unset.distance; }},
     {"mesh.backlash_unset", true, "backlash up #", "backlash down #",
      [](const Calculated& c) { return c.drive.unset.backlash; }},
     {"float.nominal", true, "float up #", "float down #",
      [](const Calculated& c) { return c.stack.axial_float; }},
     {"width.overall", true, "car # wider", "car # narrower",
      [](const Calculated& c) { return c.stack.overall_width; }},
     {"width.shift", true, "wheels # to the left", "wheels # to the right",
      [](const Calculated& c) { return c.stack.shift; }},
     {"gear.final_drive", false, "final drive up #", "final drive down #",
      [](const Calculated& c) { return c.drive.final_drive; }},
     {"gear.rollout", true, "rollout up #", "rollout down #",
      [](const Calculated& c) { return c.drive.rollout; }}}};

/// A change on the bench: keys that go together, on one side, both or none.
struct Touch {
    std::string text;
    std::vector<std::string> keys;
    int rank = 0;
};

std::string name_of(const std::string& key) { return key.substr(key.find('.') + 1); }

bool is_holder(const std::string& key) {
    return !other_side_key(key).empty() && name_of(key).rfind("holder_", 0) == 0;
}

int rank_of(const std::string& key) {
    const bool side = !other_side_key(key).empty();
    if (is_holder(key)) return 0;
    if (side && name_of(key).rfind("tyre_", 0) == 0) return 1;
    if (side) return 2;
    return key.rfind("gears.", 0) == 0 ? 4 : 3;
}

bool differs(const Parameter& p, const Setup& a, const Setup& b) {
    if (p.kind == ValueKind::text || p.key == "motor.clamped_at") return false;
    return p.kind == ValueKind::list ? p.get_list(a) != p.get_list(b) : p.get(a) != p.get(b);
}

std::string value_text(const Parameter& p, const Setup& setup, LengthUnit shown) {
    if (p.kind == ValueKind::list) {
        const auto& list = p.get_list(setup);
        return length(std::accumulate(list.begin(), list.end(), 0.0), shown) + " together";
    }
    const auto value = p.get(setup);
    if (!value) return "none";
    if (p.kind == ValueKind::choice) return p.options[static_cast<std::size_t>(*value)];
    if (p.unit == Unit::mm) return length(*value, shown);
    return with_unit(fixed(*value, *value == std::round(*value) ? 0 : 2), symbol(p.unit));
}

std::string holder_text(const AxleSide& side, LengthUnit shown) {
    const std::string way = side.holder_way == Way::up ? " up" : " down";
    return length(side.holder_step, shown) + (side.holder_step > 0 ? way : "");
}

class Causes {
public:
    Causes(const Setup& from, const Setup& to, LengthUnit shown)
        : to_(to), shown_(shown), now_(clamped(from)) {}

    std::vector<Cause> all() {
        for (const Touch& touch : touches()) follow(touch);
        follow_mesh();
        return std::move(causes_);
    }

private:
    std::vector<Touch> touches() const {
        std::vector<Touch> all;
        for (const Parameter& p : parameters()) {
            if (!differs(p, now_, to_) || told(all, p.key)) continue;
            const std::string other = other_side_key(p.key);
            Touch touch{"", keys_with(p.key), rank_of(p.key)};
            const bool both = !other.empty() && same_on_both(touch.keys);
            const std::string side = other.empty() ? "" : p.key.substr(0, p.key.find('.')) + ": ";
            touch.text = (both ? "both: " : side) + words(p);
            if (both)
                for (const std::string& key : keys_with(other)) touch.keys.push_back(key);
            all.push_back(std::move(touch));
        }
        std::stable_sort(all.begin(), all.end(),
                         [](const Touch& a, const Touch& b) { return a.rank < b.rank; });
        return all;
    }

    static bool told(const std::vector<Touch>& all, const std::string& key) {
        return std::any_of(all.begin(), all.end(), [&](const Touch& t) {
            return std::find(t.keys.begin(), t.keys.end(), key) != t.keys.end();
        });
    }

    /// A holder's step and way are one thing.
    static std::vector<std::string> keys_with(const std::string& key) {
        if (!is_holder(key)) return {key};
        const std::string side = key.substr(0, key.find('.'));
        return {side + ".holder_step", side + ".holder_way"};
    }

    bool same_on_both(const std::vector<std::string>& keys) const {
        return std::all_of(keys.begin(), keys.end(), [&](const std::string& key) {
            const Parameter& here = *find_parameter(key);
            const Parameter& there = *find_parameter(other_side_key(key));
            if (here.kind == ValueKind::list)
                return here.get_list(now_) == there.get_list(now_) &&
                       here.get_list(to_) == there.get_list(to_);
            return here.get(now_) == there.get(now_) && here.get(to_) == there.get(to_);
        });
    }

    std::string words(const Parameter& p) const {
        if (is_holder(p.key)) {
            const Side side = p.key.rfind("left.", 0) == 0 ? Side::left : Side::right;
            return "holder " + holder_text(to_.side(side), shown_) + " instead of " +
                   holder_text(now_.side(side), shown_);
        }
        return p.label + " " + value_text(p, to_, shown_) + " instead of " +
               value_text(p, now_, shown_);
    }

    void follow(const Touch& touch) {
        Setup next = now_;
        bool gears = false;
        for (const std::string& key : touch.keys) {
            const Parameter& p = *find_parameter(key);
            if (p.kind == ValueKind::list)
                p.set_list(next, p.get_list(to_));
            else
                p.set(next, p.get(to_));
            gears = gears || key.rfind("gears.", 0) == 0;
        }
        if (gears) {
            next.motor.clamped_at.reset();
            next = clamped(next);
        }
        add(touch.text, next);
    }

    /// The motor is moved to where `to` has it.
    void follow_mesh() {
        Setup next = now_;
        next.motor.clamped_at = clamped(to_).motor.clamped_at;
        if (next.motor.clamped_at == now_.motor.clamped_at) return;
        const double moved = next.motor.clamped_at.value_or(0) - now_.motor.clamped_at.value_or(0);
        if (std::abs(moved) < 5e-4) return;
        add("motor moved " + length(std::abs(moved), shown_) +
                (moved > 0 ? " up its slot" : " down its slot") + " to set the mesh again",
            next);
    }

    void add(const std::string& text, Setup next) {
        const Calculated was = calculate(now_);
        const Calculated is = calculate(next);
        Cause cause{text, {}};
        for (const Moved& moved : chain) {
            const double change = moved.of(is) - moved.of(was);
            if (!(std::abs(change) > 1e-9)) continue;
            CauseLink link{moved.reading, change, ""};
            const std::string amount = shown_amount(moved, change);
            if (!amount.empty()) {
                link.text = change > 0 ? moved.up : moved.down;
                link.text.replace(link.text.find('#'), 1, amount);
            }
            cause.links.push_back(std::move(link));
        }
        causes_.push_back(std::move(cause));
        now_ = std::move(next);
    }

    std::string shown_amount(const Moved& moved, double change) const {
        const char* unit = moved.is_length ? "mm" : "";
        if (shown_effect(change, unit, shown_).empty()) return {};
        const double size = std::abs(change);
        if (moved.is_length) return length(size, shown_);
        const bool angle = std::string_view(moved.reading).substr(0, 5) == "ride.";
        return fixed(size, 2) + (angle ? "\xC2\xB0" : "");
    }

    const Setup& to_;
    LengthUnit shown_;
    Setup now_;
    std::vector<Cause> causes_;
};

}  // namespace

std::vector<Cause> causes_between(const Setup& from, const Setup& to, LengthUnit shown) {
    return Causes(from, to, shown).all();
}

std::string sentence(const Cause& cause) {
    std::string text = cause.text;
    bool any = false;
    for (const CauseLink& link : cause.links) {
        if (link.text.empty()) continue;
        text += " -> " + link.text;
        any = true;
    }
    return any ? text : text + ": moves none of the readings";
}

}  // namespace podwright
