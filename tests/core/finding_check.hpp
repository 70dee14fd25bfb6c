#pragma once

#include <algorithm>
#include <catch2/catch.hpp>
#include <string_view>

#include "core/conflicts.hpp"
#include "evaluate/evaluate.hpp"

namespace podwright {

inline const Finding* find(const Evaluation& e, std::string_view code) {
    const auto found = std::find_if(e.findings.begin(), e.findings.end(),
                                    [&](const Finding& f) { return f.code == code; });
    return found == e.findings.end() ? nullptr : &*found;
}

/// The finding is there, and its fix makes a car without it and with nothing worse.
inline void check_fix(const Setup& setup, std::string_view code, Level level) {
    INFO(code);
    const Evaluation before = evaluate(setup);
    const Finding* finding = find(before, code);
    REQUIRE(finding != nullptr);
    INFO(finding->text << " / " << finding->fix);
    CHECK(finding->level == level);
    REQUIRE_FALSE(finding->changes.empty());
    const Setup mended = with_changes(setup, finding->changes);
    CHECK_FALSE(find_conflict(mended));
    const Evaluation after = evaluate(mended);
    CHECK(find(after, code) == nullptr);
    CHECK(after.worst() <= before.worst());
}

}  // namespace podwright
