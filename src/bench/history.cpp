#include "bench/history.hpp"

namespace podwright {

History::History(Setup first) { states_.push_back({std::move(first), "", next_number_++}); }

void History::push(Setup setup, std::string what) {
    states_.erase(states_.begin() + static_cast<std::ptrdiff_t>(at_) + 1, states_.end());
    states_.push_back({std::move(setup), std::move(what), next_number_++});
    if (states_.size() > longest) states_.erase(states_.begin());
    at_ = states_.size() - 1;
}

void History::undo() {
    if (can_undo()) --at_;
}

void History::redo() {
    if (can_redo()) ++at_;
}

std::string History::undo_name() const { return can_undo() ? states_[at_].what : std::string(); }

std::string History::redo_name() const {
    return can_redo() ? states_[at_ + 1].what : std::string();
}

}  // namespace podwright
