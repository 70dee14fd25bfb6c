#pragma once

#include <string>

#include "bench/advisor.hpp"
#include "bench/widgets.hpp"

// What the pages of the panel at the right are made of.
namespace podwright {

/// What runs, with a bar and a button that stops it; nothing in the first 0.3 s.
void progress_row(WindowFrame& frame, Advisor& advisor);

/// A frame round what is built between begin_card() and end_card().
struct Card {
    ImVec2 start;
    float width = 0;  ///< inside
};
Card begin_card(WindowFrame& frame);
struct CardState {
    bool hovered = false;
    bool pressed = false;  ///< on the card itself, not on a button in it
};
CardState end_card(WindowFrame& frame, const Card& card, const std::string& name, bool chosen);

/// A strong title with quiet words at the right, inside a card.
void card_title(WindowFrame& frame, const Card& card, const std::string& title,
                const std::string& at_right);

/// A line with a small dot before it, broken at the card's width.
void bullet(WindowFrame& frame, float width, const std::string& words);

/// A quiet paragraph with some room below.
void note(WindowFrame& frame, const std::string& words);

}  // namespace podwright
