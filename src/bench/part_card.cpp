#include "bench/part_card.hpp"

#include <algorithm>

namespace podwright {

namespace {

constexpr float pad = 12, margin = 16, between = 24, below_title = 8, below_line = 4;

float width_of(const ImFont& font, const std::string& text) {
    return font.CalcTextSizeA(font.FontSize, 1e9F, 0, text.c_str()).x;
}

}  // namespace

PartCard place_part_card(Canvas& canvas, const Part& part, const Setup& setup,
                         const Evaluation& evaluation, LengthUnit shown) {
    PartCard card{shown_title(part, shown), part_facts(part.key, setup, evaluation, shown), {}};
    const ImFont& small = *canvas.type->small;
    const ImFont& strong = *canvas.type->strong;
    float width = width_of(strong, card.title);
    for (const Fact& fact : card.facts)
        width = std::max(width, canvas.px(between) + width_of(small, fact.label + fact.value));
    const float lines =
        (small.FontSize + canvas.px(below_line)) * static_cast<float>(card.facts.size());
    card.box.low = {canvas.box.low.x + canvas.px(margin), canvas.box.low.y + canvas.px(margin)};
    card.box.high = {
        card.box.low.x + width + 2 * canvas.px(pad),
        card.box.low.y + 2 * canvas.px(pad) + strong.FontSize + canvas.px(below_title) + lines};
    canvas.taken.push_back(card.box);
    return card;
}

void draw_part_card(const Canvas& canvas, const PartCard& card) {
    const ImFont& small = *canvas.type->small;
    ImDrawList& list = *canvas.list;
    const auto [low, high] = card.box;
    list.AddRectFilled(low, high, canvas.colours().card, canvas.px(6));
    list.AddRect(low, high, canvas.colours().accent, canvas.px(6), 0, canvas.px(1.5F));
    const float left = low.x + canvas.px(pad);
    const float right = high.x - canvas.px(pad);
    float y = low.y + canvas.px(pad);
    list.AddText(canvas.type->strong, canvas.type->strong->FontSize, {left, y},
                 canvas.colours().ink, card.title.c_str());
    y += canvas.type->strong->FontSize + canvas.px(below_title);
    for (const Fact& fact : card.facts) {
        list.AddText(&small, small.FontSize, {left, y}, canvas.colours().quiet, fact.label.c_str());
        list.AddText(&small, small.FontSize, {right - width_of(small, fact.value), y},
                     canvas.colours().ink, fact.value.c_str());
        y += small.FontSize + canvas.px(below_line);
    }
}

}  // namespace podwright
