#include "choose/felt.hpp"

#include "evaluate/evaluate.hpp"

namespace podwright {

namespace {

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

std::vector<std::string> Felt::against(const Setup& build) const {
    std::vector<std::string> codes;
    each_finding(build, [&](const std::string& code) {
        if (of_warmth(code) || (of_axle(code) && !known_.contains(code))) codes.push_back(code);
    });
    return codes;
}

}  // namespace podwright
