#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "core/setup.hpp"

namespace podwright {

/// The setups that were, and are: undo is going back in this list. Never empty.
class History {
public:
    explicit History(Setup first);

    const Setup& now() const { return states_[at_].setup; }
    /// Takes `setup` as the new present, called `what`; what was undone is forgotten.
    void push(Setup setup, std::string what);
    bool can_undo() const { return at_ > 0; }
    /// The setup before the present; the present if there is none.
    const Setup& before() const { return states_[at_ > 0 ? at_ - 1 : 0].setup; }
    bool can_redo() const { return at_ + 1 < states_.size(); }
    void undo();
    void redo();
    /// What undo() would take back, and redo() would do again; empty if there is nothing.
    std::string undo_name() const;
    std::string redo_name() const;

    /// The present is what stands in the file.
    void mark_saved() { saved_ = states_[at_].number; }
    bool is_saved() const { return saved_ == states_[at_].number; }

private:
    struct State {
        Setup setup;
        std::string what;
        std::size_t number;  ///< its own for ever, so that a saved state is known again
    };
    static constexpr std::size_t longest = 500;

    std::vector<State> states_;
    std::size_t at_ = 0;
    std::size_t next_number_ = 0;
    std::size_t saved_ = 0;
};

}  // namespace podwright
