#include "choose/diagnose.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "choose/limit.hpp"
#include "core/conflicts.hpp"
#include "core/readings.hpp"
#include "core/shim_search.hpp"
#include "core/traded.hpp"
#include "evaluate/evaluate.hpp"

namespace podwright {

namespace {

constexpr double equal_within = 2.0;  // of chi square: odds of less than e : 1
// By how much a bearing may stand off its seat, in twentieths of a millimetre; common practice, no
// source.
constexpr int unseated_least = 2;
constexpr int unseated_most = 20;

/// What the further measurement is chosen from: the gauge's standard uncertainty where the user has
/// not measured that reading with a better one (common practice, no source).
struct Gauge {
    const char* reading;
    double uncertainty;
};
constexpr std::array<Gauge, 10> usual_gauges = {{{"float.nominal", 0.02},
                                                 {"width.overall", 0.05},
                                                 {"width.left", 0.05},
                                                 {"width.right", 0.05},
                                                 {"ride.left", 0.05},
                                                 {"ride.right", 0.05},
                                                 {"axle.height", 0.05},
                                                 {"mesh.backlash", 0.02},
                                                 {left_shims_together.data(), 0.01},
                                                 {right_shims_together.data(), 0.01}}};

/// With what the axle feels only where that was measured: it takes ten times as long.
std::vector<Reading> readings(const Setup& setup) {
    const Calculated c = calculate(setup);
    std::vector<Reading> plain = readings_of(setup, c.stack, c.stance, c.drive);
    const auto& measured = setup.choosing.measured;
    const bool enough = std::all_of(measured.begin(), measured.end(), [&](const Measured& m) {
        return predicted(setup, plain, m.reading).has_value();
    });
    return enough ? plain : evaluate(setup).readings;
}

double value_of(const Setup& setup, const std::vector<Reading>& all, const std::string& name) {
    const auto there = predicted(setup, all, name);
    return there ? there->value : std::nan("");
}

std::string title(Side side) { return side == Side::left ? "left" : "right"; }

/// Thicknesses of the box, or those in trade, in order.
std::vector<double> sizes(const Setup& setup) {
    std::vector<double> all;
    for (const ShimKind& kind : setup.choosing.box.shims) all.push_back(kind.thickness);
    if (all.empty()) all.assign(usual_shims.begin(), usual_shims.end());
    std::sort(all.begin(), all.end());
    return all;
}

std::vector<double> blades(const Setup& setup) {
    if (!setup.choosing.box.blades.empty()) return setup.choosing.box.blades;
    return {usual_blades.begin(), usual_blades.end()};
}

std::vector<double> steps(const Setup& setup) {
    std::vector<double> all;
    for (const HolderKind& kind : setup.choosing.box.holders) all.push_back(kind.step);
    if (all.empty()) all = {0, 0.5, 1, 1.5, 2, 2.5, 3};
    std::sort(all.begin(), all.end());
    return all;
}

/// The neighbours of `value` in an ordered list.
std::vector<double> neighbours(const std::vector<double>& list, double value) {
    constexpr double same = 1e-9;
    std::vector<double> found;
    for (const double other : list) {
        if (other < value - same) found.assign(1, other);
        if (other > value + same) {
            found.push_back(other);
            break;
        }
    }
    return found;
}

class Mistakes {
public:
    Mistakes(const Setup& setup, LengthUnit shown) : setup_(setup), shown_(shown) {}

    std::vector<Suspect> all() {
        for (const Side side : both_sides) {
            add_shims(side);
            add_holder(side);
            add_bearing(side);
        }
        add_blades();
        add_wheels();
        return std::move(all_);
    }

private:
    void add(Mistake mistake, std::string text, Setup setup, std::optional<Side> side,
             std::vector<std::string> parts) {
        // A length that the table of values does not allow cannot be shown either.
        if (!find_conflict(setup))
            all_.push_back(
                {mistake, std::move(text), std::move(setup), side, std::move(parts), 0, 0});
    }
    std::string mm(double value) const { return length(value, shown_); }
    static std::string shim_key(Side side, std::size_t i) {
        return title(side) + ".shim." + std::to_string(i + 1);
    }

    void add_shims(Side side) {
        const std::vector<double>& shims = setup_.side(side).shims;
        const std::string at = title(side) + ": ";
        for (std::size_t i = 0; i < shims.size(); ++i) {
            if (std::find(shims.begin(), shims.begin() + static_cast<std::ptrdiff_t>(i),
                          shims[i]) != shims.begin() + static_cast<std::ptrdiff_t>(i))
                continue;  // another of the same thickness is the same mistake
            Setup missing = setup_;
            auto& fewer = missing.side(side).shims;
            fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(i));
            add(Mistake::shim_missing, at + "a " + mm(shims[i]) + " shim is missing", missing, side,
                {shim_key(side, i)});
            if (shims.size() < find_parameter("left.shims")->longest) {
                Setup doubled = setup_;
                auto& more = doubled.side(side).shims;
                more.insert(more.begin() + static_cast<std::ptrdiff_t>(i), shims[i]);
                add(Mistake::shim_doubled, at + "the " + mm(shims[i]) + " shim is there twice",
                    doubled, side, {shim_key(side, i)});
            }
            for (const double other : neighbours(sizes(setup_), shims[i])) {
                Setup swapped = setup_;
                swapped.side(side).shims[i] = other;
                add(Mistake::shim_swapped,
                    at + "a " + mm(other) + " shim in place of the " + mm(shims[i]), swapped, side,
                    {shim_key(side, i)});
            }
        }
    }

    void add_holder(Side side) {
        const AxleSide& now = setup_.side(side);
        const std::string at = title(side) + ": ";
        if (now.holder_step > 0) {
            Setup turned = setup_;
            turned.side(side).holder_way = now.holder_way == Way::up ? Way::down : Way::up;
            add(Mistake::holder_turned, at + "the holder is the other way up", turned, side,
                {title(side) + ".holder"});
        }
        for (const double other : neighbours(steps(setup_), now.holder_step)) {
            Setup off = setup_;
            off.side(side).holder_step = other;
            add(Mistake::holder_step,
                at + "a " + mm(other) + " holder in place of the " + mm(now.holder_step), off, side,
                {title(side) + ".holder"});
        }
    }

    /// A bearing that stands off its seat pushes its side of the stack outboard.
    void add_bearing(Side side) {
        for (int i = unseated_least; i <= unseated_most; ++i) {
            const double off = 0.05 * i;
            Setup setup = setup_;
            setup.side(side).seat += off;
            add(Mistake::bearing_unseated,
                title(side) + ": the bearing stands " + mm(off) + " off its seat", setup, side,
                {title(side) + ".bearing"});
        }
    }

    void add_blades() {
        const FloatSetting& now = setup_.axial_float;
        if (now.set_by != FloatBy::blade) return;
        for (const double blade : blades(setup_)) {
            if (std::abs(blade - now.blade) < 1e-9) continue;
            Setup other = setup_;
            other.axial_float.blade = blade;
            add(Mistake::other_blade,
                "the hub was clamped against the " + mm(blade) + " blade, not the " + mm(now.blade),
                other, {}, {"left.hub"});
        }
    }

    void add_wheels() {
        const AxleSide& l = setup_.left;
        const AxleSide& r = setup_.right;
        const bool alike = l.inset == r.inset && l.tyre.diameter == r.tyre.diameter &&
                           l.tyre.width == r.tyre.width;
        if (alike) return;
        Setup swapped = setup_;
        std::swap(swapped.left.inset, swapped.right.inset);
        std::swap(swapped.left.rim_diameter, swapped.right.rim_diameter);
        std::swap(swapped.left.tyre, swapped.right.tyre);
        add(Mistake::wheels_swapped, "the wheels are swapped, left for right", swapped, {},
            {"left.wheel", "right.wheel", "left.tyre", "right.tyre"});
    }

    const Setup& setup_;
    LengthUnit shown_;
    std::vector<Suspect> all_;
};

double chi_square(const std::vector<Comparison>& compared, const Setup& setup) {
    const std::vector<Reading> there = readings(setup);
    double sum = 0;
    for (const Comparison& c : compared) {
        const double off =
            (c.measured.value - value_of(setup, there, c.measured.reading)) / c.uncertainty;
        sum += off * off;
    }
    return sum;
}

/// What chi square with so many degrees of freedom exceeds once in a hundred times (Wilson and
/// Hilferty's approximation, 1931, from memory).
double exceeded_by_chance(std::size_t freedom) {
    constexpr double once_in_a_hundred = 2.3263;  // of the normal distribution
    const auto k = static_cast<double>(freedom);
    const double root = 1 - 2 / (9 * k) + once_in_a_hundred * std::sqrt(2 / (9 * k));
    return k * root * root * root;
}

/// The reading in which the equal suspects differ most in its uncertainties: the least difference
/// between any two is the greatest; ties by the sum of differences, then by the list.
std::optional<Further> further(const Diagnosis& diagnosis, const Setup& setup) {
    std::vector<std::vector<Reading>> there;
    for (std::size_t i = 0; i < diagnosis.equal; ++i)
        there.push_back(readings(diagnosis.suspects[i].setup));
    std::optional<Further> best;
    std::pair<double, double> best_apart{0, 0};
    for (const Gauge& gauge : usual_gauges) {
        const double uncertainty = gauge.uncertainty;
        bool known = false;
        for (const Measured& measured : setup.choosing.measured)
            known = known || measured.reading == gauge.reading;
        if (known) continue;
        const auto first = predicted(diagnosis.suspects[0].setup, there[0], gauge.reading);
        if (!first) continue;
        Further one{gauge.reading, first->label, {}, uncertainty};
        std::pair<double, double> apart{1e300, 0};
        for (std::size_t i = 0; i < there.size(); ++i) {
            const double value = value_of(diagnosis.suspects[i].setup, there[i], gauge.reading);
            for (const Further::Expected& other : one.expected) {
                const double away =
                    std::abs(value - other.value) / std::hypot(uncertainty, build_uncertainty);
                apart.first = std::min(apart.first, away);
                apart.second += std::min(away, 10.0);
            }
            one.expected.push_back({i, value});
        }
        // What does not tell all of them apart may still tell some.
        if (apart.first < disagreement) apart.first = 0;
        if (apart.second < disagreement || apart <= best_apart) continue;
        best_apart = apart;
        best = std::move(one);
    }
    return best;
}

}  // namespace

std::vector<Suspect> single_mistakes(const Setup& setup, LengthUnit shown) {
    return Mistakes(setup, shown).all();
}

std::vector<Comparison> comparisons(const Setup& setup) {
    return comparisons(setup, readings(setup));
}

namespace {

/// Of each side's bearing only the likeliest distance off its seat, for all of them.
void merge_bearings(std::vector<Suspect>& suspects) {
    for (const Side side : both_sides) {
        const auto same = [&](const Suspect& s) {
            return s.mistake == Mistake::bearing_unseated && s.side == side;
        };
        std::optional<Suspect> best;
        double likelihood = 0;
        for (const Suspect& s : suspects) {
            if (!same(s)) continue;
            likelihood += s.likelihood;
            if (!best || s.chi_square < best->chi_square) best = s;
        }
        if (!best) continue;
        best->likelihood = likelihood;
        suspects.erase(std::remove_if(suspects.begin(), suspects.end(), same), suspects.end());
        suspects.push_back(std::move(*best));
    }
}

}  // namespace

Diagnosis diagnose(const Setup& setup, LengthUnit shown) {
    Diagnosis diagnosis;
    diagnosis.compared = comparisons(setup);
    diagnosis.disagrees = std::any_of(diagnosis.compared.begin(), diagnosis.compared.end(),
                                      [](const Comparison& c) { return c.disagrees; });
    if (!diagnosis.disagrees) return diagnosis;

    std::vector<Suspect> suspects = single_mistakes(setup, shown);
    std::map<Mistake, int> of_kind;
    for (const Suspect& suspect : suspects) ++of_kind[suspect.mistake];
    // A kind of mistake is as likely beforehand as another, and so is each within its kind; no
    // mistake at all is as likely as all of them together.
    const double none = chi_square(diagnosis.compared, setup);
    double least = none;
    for (Suspect& suspect : suspects) {
        suspect.chi_square = chi_square(diagnosis.compared, suspect.setup);
        least = std::min(least, suspect.chi_square);
    }
    const double kinds = std::max<double>(1, static_cast<double>(of_kind.size()));
    double sum = kinds * std::exp((least - none) / 2);
    diagnosis.no_mistake = sum;
    for (Suspect& suspect : suspects) {
        suspect.likelihood = std::exp((least - suspect.chi_square) / 2) / of_kind[suspect.mistake];
        sum += suspect.likelihood;
    }
    diagnosis.no_mistake /= sum;
    for (Suspect& suspect : suspects) suspect.likelihood /= sum;
    merge_bearings(suspects);
    std::stable_sort(suspects.begin(), suspects.end(), [](const Suspect& a, const Suspect& b) {
        return a.likelihood > b.likelihood;
    });
    diagnosis.suspects = std::move(suspects);
    double best = diagnosis.suspects.empty() ? 0 : diagnosis.suspects[0].chi_square;
    for (const Suspect& suspect : diagnosis.suspects) best = std::min(best, suspect.chi_square);
    diagnosis.explained =
        !diagnosis.suspects.empty() && best <= exceeded_by_chance(diagnosis.compared.size());
    std::stable_partition(diagnosis.suspects.begin(), diagnosis.suspects.end(),
                          [&](const Suspect& s) { return s.chi_square <= best + equal_within; });
    diagnosis.equal = static_cast<std::size_t>(
        std::count_if(diagnosis.suspects.begin(), diagnosis.suspects.end(),
                      [&](const Suspect& s) { return s.chi_square <= best + equal_within; }));
    if (diagnosis.equal > 1) diagnosis.further = further(diagnosis, setup);
    return diagnosis;
}

}  // namespace podwright
