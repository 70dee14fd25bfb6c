#include "choose/felt.hpp"

#include "core/readings.hpp"
#include "core/rules.hpp"
#include "evaluate/evaluate.hpp"

namespace podwright {

namespace {

constexpr const char* rule_broken = "rule.broken";

bool begins(const std::string& code, const char* with) { return code.rfind(with, 0) == 0; }

bool of_axle(const std::string& code) { return begins(code, "shaft.") || begins(code, "bearing."); }

bool of_warmth(const std::string& code) {
    return code == "float.binds_in_day" || code == "float.leaves_in_day";
}

template <class Take>
void each_finding(const Setup& setup, Take take) {
    for (const Finding& finding : evaluate(setup).findings)
        if (finding.level != Level::note) take(finding.code);
}

}  // namespace

bool is_felt(const std::string& code) { return of_axle(code) || of_warmth(code); }

Felt::Felt(const Setup& today) {
    each_finding(today, [&](const std::string& code) {
        if (of_axle(code)) known_.insert(code);
    });
}

Limits Felt::against(const Setup& build) const {
    Limits limits;
    each_finding(build, [&](const std::string& code) {
        if (of_warmth(code) || (of_axle(code) && !known_.contains(code))) limits.add(Limit::felt);
        if (code == rule_broken) limits.add(Limit::rules);
    });
    return limits;
}

bool breaks_rules(const Setup& build) {
    bool broken = false;
    each_finding(build, [&](const std::string& code) { broken = broken || code == rule_broken; });
    return broken;
}

std::vector<std::string> unjudged_rules(const Setup& setup, bool felt) {
    if (setup.choosing.rules.empty()) return {};
    const Calculated c = calculate(setup);
    const auto readings =
        felt ? evaluate(setup).readings : readings_of(setup, c.stack, c.stance, c.drive);
    std::vector<std::string> names;
    for (const RuleState& state : rule_states(setup, readings))
        if (!state.value) names.push_back(state.rule->of);
    return names;
}

}  // namespace podwright
