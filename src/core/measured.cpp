#include "core/measured.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace podwright {

namespace {

double together(const std::vector<double>& shims) {
    return std::accumulate(shims.begin(), shims.end(), 0.0);
}

}  // namespace

std::optional<Predicted> predicted(const Setup& setup, std::span<const Reading> readings,
                                   std::string_view name) {
    if (name == left_shims_together)
        return Predicted{"left shims together", "mm", together(setup.left.shims)};
    if (name == right_shims_together)
        return Predicted{"right shims together", "mm", together(setup.right.shims)};
    const auto found = std::find_if(readings.begin(), readings.end(),
                                    [&](const Reading& r) { return r.name == name; });
    if (found == readings.end()) return {};
    return Predicted{std::string(found->label), std::string(found->unit), found->value};
}

double combined_uncertainty(double gauge, std::string_view unit) {
    return unit == "mm" ? std::hypot(gauge, build_uncertainty) : gauge;
}

std::vector<Comparison> comparisons(const Setup& setup, std::span<const Reading> readings) {
    std::vector<Comparison> all;
    for (const Measured& measured : setup.choosing.measured) {
        const auto there = predicted(setup, readings, measured.reading);
        if (!there) continue;
        Comparison c;
        c.measured = measured;
        c.predicted = there->value;
        c.label = there->label;
        c.unit = there->unit;
        c.uncertainty = combined_uncertainty(measured.uncertainty, there->unit);
        c.off = (measured.value - c.predicted) / c.uncertainty;
        c.disagrees = std::abs(c.off) > disagreement;
        all.push_back(std::move(c));
    }
    return all;
}

std::string sentence(const Comparison& c, LengthUnit shown) {
    const double difference = c.measured.value - c.predicted;
    std::string text = amount(c.measured.value, c.unit, shown) + " measured, " +
                       amount(c.predicted, c.unit, shown) + " calculated, \xC2\xB1" +
                       amount(c.uncertainty, c.unit, shown);
    if (!c.disagrees) return text + ": agrees";
    return text + ": " + amount(std::abs(difference), c.unit, shown) +
           (difference > 0 ? " too much" : " too little");
}

void find_measured(const Setup& setup, std::span<const Reading> readings, LengthUnit shown,
                   std::vector<Finding>& out) {
    std::string text;
    for (const Comparison& c : comparisons(setup, readings))
        if (c.disagrees) text += (text.empty() ? "" : "; ") + c.label + " " + sentence(c, shown);
    if (text.empty()) return;
    Finding finding;
    finding.level = Level::caution;
    finding.code = "measured.disagrees";
    finding.text = "What was measured is not what this build would give: " + text + ".";
    finding.fix =
        "Measure once more; if it stays so, look at the mistakes that would explain it, the "
        "likeliest first.";
    out.push_back(std::move(finding));
}

}  // namespace podwright
