#include "choose/key_rules.hpp"

#include <algorithm>

#include "core/limits.hpp"

namespace podwright {

namespace {

/// The key that a rule is about, if it is about one.
const Parameter* key_of(const EventRule& rule) {
    // The one reading that is a key by another name.
    const Parameter* key = find_parameter(rule.of == "ride.front" ? "car.front_ride" : rule.of);
    return key && key->get ? key : nullptr;
}

bool holds(const EventRule& rule, const Parameter& key, const Setup& setup) {
    const std::optional<double> value = key.get(setup);
    if (!value) return true;
    return !(rule.low && below(*value, *rule.low)) && !(rule.high && above(*value, *rule.high));
}

/// Whether any choice of the list makes the key another than it is today.
bool sets(const Setup& today, const Lists& lists, Chosen list, const Parameter& key) {
    for (std::size_t at = 0; at < size_of(lists, list); ++at)
        if (key.get(with_choice(today, lists, list, at)) != key.get(today)) return true;
    return false;
}

}  // namespace

std::size_t size_of(const Lists& lists, Chosen list) {
    switch (list) {
        case Chosen::left_rolling: return lists.rolling[0].size();
        case Chosen::right_rolling: return lists.rolling[1].size();
        case Chosen::left_holder: return lists.holders[0].size();
        case Chosen::right_holder: return lists.holders[1].size();
        case Chosen::setting: return lists.floats.size();
        case Chosen::gears: return lists.gears.size();
    }
    return 0;
}

Setup with_choice(const Setup& today, const Lists& lists, Chosen list, std::size_t at) {
    Setup setup = today;
    switch (list) {
        case Chosen::left_rolling: set(setup.left, lists.rolling[0][at]); break;
        case Chosen::right_rolling: set(setup.right, lists.rolling[1][at]); break;
        case Chosen::left_holder: set(setup.left, lists.holders[0][at]); break;
        case Chosen::right_holder: set(setup.right, lists.holders[1][at]); break;
        case Chosen::setting: lists.set_float(setup, at); break;
        case Chosen::gears: lists.set_gears(setup, at); break;
    }
    return setup;
}

KeyRules::KeyRules(const Setup& today, const Lists& lists) {
    for (const EventRule& rule : today.choosing.rules) {
        const Parameter* key = key_of(rule);
        if (!key) continue;
        bool is_set = false;
        for (int i = 0; i < chosen_count; ++i) {
            const auto list = static_cast<Chosen>(i);
            if (!sets(today, lists, list, *key)) continue;
            of_[static_cast<std::size_t>(i)].emplace_back(&rule, key);
            is_set = true;
        }
        hold_always_ = hold_always_ && (is_set || holds(rule, *key, today));
    }
}

bool KeyRules::hold(Chosen list, const Setup& setup) const {
    const auto& ruled = of_[static_cast<std::size_t>(list)];
    return std::all_of(ruled.begin(), ruled.end(),
                       [&](const Ruled& one) { return holds(*one.first, *one.second, setup); });
}

}  // namespace podwright
