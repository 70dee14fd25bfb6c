#include "bench/plot.hpp"

#include <algorithm>
#include <cmath>

namespace podwright {

namespace {

float text_width(const ImFont& font, const std::string& text) {
    return font.CalcTextSizeA(font.FontSize, 1e9F, 0, text.c_str()).x;
}

ImU32 with_alpha(ImU32 colour, unsigned alpha) {
    return (colour & ~IM_COL32_A_MASK) | (alpha << IM_COL32_A_SHIFT);
}

/// The field of a histogram, in pixels, and what its ends stand for.
struct Field {
    ImVec2 low, high;
    PlotSpan span;
    float at(double value) const {
        const double t = std::clamp((value - span.low) / (span.high - span.low), 0.0, 1.0);
        return low.x + static_cast<float>(t) * (high.x - low.x);
    }
};

void draw_window(WindowFrame& frame, const HistogramPlot& plot, const Field& field) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const Palette& c = frame.colours();
    list.AddRectFilled(field.low, field.high, c.field, frame.px(grid::rounding));
    const float from = plot.least ? field.at(*plot.least) : field.low.x;
    const float to = plot.most ? field.at(*plot.most) : field.high.x;
    if (plot.least || plot.most)
        list.AddRectFilled({from, field.low.y}, {to, field.high.y}, with_alpha(c.good, 40));
    for (const auto& [limit, x] : {std::pair{plot.least, from}, {plot.most, to}})
        if (limit)
            list.AddLine({x, field.low.y}, {x, field.high.y + frame.px(4)}, c.good, frame.px(2));
}

/// Inside the window the classes are filled; outside they are a hollow outline.
void draw_classes(WindowFrame& frame, const HistogramPlot& plot, const Field& field) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const Palette& c = frame.colours();
    const double tallest = *std::max_element(plot.counts.begin(), plot.counts.end());
    const double width = (plot.high - plot.low) / static_cast<double>(plot.counts.size());
    const float room = field.high.y - field.low.y - frame.px(6);
    const float stroke = frame.px(1.5F);
    float before = field.high.y;  // top of the outline so far
    for (std::size_t i = 0; i < plot.counts.size(); ++i) {
        const double from = plot.low + width * static_cast<double>(i);
        const double middle = from + width / 2;
        const float left = field.at(from), right = field.at(from + width);
        // A class with anything in it can be seen.
        const float tall = static_cast<float>(plot.counts[i] / tallest) * room;
        const float top = field.high.y - (plot.counts[i] > 0 ? std::max(tall, stroke) : 0.0F);
        const bool inside =
            (!plot.least || middle >= *plot.least) && (!plot.most || middle <= *plot.most);
        if (inside) {
            const float between = right - left > frame.px(3) ? 1.0F : 0.0F;
            list.AddRectFilled({left, top}, {std::max(right - between, left + 1), field.high.y},
                               c.accent);
            before = field.high.y;
            continue;
        }
        list.AddRectFilled({left, top}, {right, field.high.y}, with_alpha(c.stop, 60));
        list.AddLine({left, before}, {left, top}, c.stop, stroke);
        list.AddLine({left, top}, {right, top}, c.stop, stroke);
        before = top;
    }
}

/// Values under the axis, each centred on its place, as far as they keep apart.
void draw_values(WindowFrame& frame, const HistogramPlot& plot, const Field& field) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const ImFont& font = *frame.type.caption;
    const float y = field.high.y + frame.px(6);
    std::vector<std::pair<float, float>> taken;
    const auto write = [&](double value, ImU32 colour) {
        const std::string text = length(value, frame.model.shown);
        const float width = text_width(font, text);
        const float left =
            std::clamp(field.at(value) - width / 2, field.low.x, field.high.x - width);
        const float right = left + width + frame.px(grid::small);
        for (const auto& [a, b] : taken)
            if (left < b && a < right) return;
        taken.emplace_back(left, right);
        list.AddText(&font, font.FontSize, {left, y}, colour, text.c_str());
    };
    for (const std::optional<double>& limit : {plot.least, plot.most})
        if (limit) write(*limit, frame.colours().ink);
    write(plot.nominal, frame.colours().quiet);
    const float x = field.at(plot.nominal), r = frame.px(4);
    list.AddTriangleFilled({x, field.high.y}, {x + r, field.high.y + 1.5F * r},
                           {x - r, field.high.y + 1.5F * r}, frame.colours().ink);
}

}  // namespace

PlotSpan span_of(const HistogramPlot& plot) {
    PlotSpan span{plot.low, plot.high};
    if (plot.least) span.low = std::min(span.low, *plot.least);
    if (plot.most) span.high = std::max(span.high, *plot.most);
    const double room = 0.06 * (span.high - span.low);
    if (plot.least && *plot.least - room < span.low) span.low = *plot.least - room;
    if (plot.most && *plot.most + room > span.high) span.high = *plot.most + room;
    return span;
}

void draw_histogram(WindowFrame& frame, const HistogramPlot& plot, float height) {
    if (plot.counts.empty() || !(plot.high > plot.low)) return;
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float width = ImGui::GetContentRegionAvail().x;
    const float foot = frame.type.caption->FontSize + frame.px(8);
    const Field field{at, {at.x + width, at.y + frame.px(height) - foot}, span_of(plot)};
    draw_window(frame, plot, field);
    draw_classes(frame, plot, field);
    ImGui::GetWindowDrawList()->AddLine({field.low.x, field.high.y}, field.high,
                                        frame.colours().ink, frame.px(1));
    draw_values(frame, plot, field);
    ImGui::Dummy({width, frame.px(height)});
}

std::vector<ShareBar> largest_shares(std::vector<ShareBar> bars, std::size_t most) {
    std::stable_sort(bars.begin(), bars.end(),
                     [](const ShareBar& a, const ShareBar& b) { return a.share > b.share + 1e-9; });
    while (!bars.empty() && !(bars.back().share > 0)) bars.pop_back();
    if (bars.size() <= most + 1) return bars;
    ShareBar rest{std::to_string(bars.size() - most) + " others", 0};
    for (std::size_t i = most; i < bars.size(); ++i) rest.share += bars[i].share;
    bars.resize(most);
    bars.push_back(std::move(rest));
    return bars;
}

void draw_signed_bars(WindowFrame& frame, const std::vector<SignedBar>& bars,
                      const std::string& unit) {
    const ImFont& font = *frame.type.small;
    const auto value_of = [&](const SignedBar& bar) {
        return (bar.value > 0 ? "+" : "") + fixed(bar.value, 2) + " " + unit;
    };
    double least = 0, most = 0;
    float labels = 0, values = 0;
    for (const SignedBar& bar : bars) {
        least = std::min(least, bar.value);
        most = std::max(most, bar.value);
        labels = std::max(labels, text_width(font, bar.label));
        values = std::max(values, text_width(font, value_of(bar)));
    }
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const float width = ImGui::GetContentRegionAvail().x;
    const float label = std::min(labels, 0.45F * width) + frame.px(grid::small);
    const float room = width - label - values - frame.px(grid::small);
    const double span = most > least ? most - least : 1;
    for (const SignedBar& bar : bars) {
        const ImVec2 at = ImGui::GetCursorScreenPos();
        list.AddText(&font, font.FontSize, at, frame.colours().ink,
                     shortened(font, bar.label, label - frame.px(grid::hair)).c_str());
        const float zero = at.x + label + room * static_cast<float>(-least / span);
        const float end = zero + room * static_cast<float>(bar.value / span);
        const float middle = at.y + font.FontSize / 2, half = font.FontSize * 0.3F;
        list.AddRectFilled({std::min(zero, end), middle - half},
                           {std::max(zero, end), middle + half}, frame.colours().accent);
        list.AddLine({zero, at.y - frame.px(2)}, {zero, at.y + font.FontSize + frame.px(2)},
                     frame.colours().ink, frame.px(1));
        const std::string value = value_of(bar);
        list.AddText(&font, font.FontSize, {at.x + width - text_width(font, value), at.y},
                     frame.colours().ink, value.c_str());
        ImGui::Dummy({width, font.FontSize + frame.px(grid::hair)});
    }
}

void draw_bars(WindowFrame& frame, const std::vector<ShareBar>& bars) {
    const ImFont& font = *frame.type.small;
    const auto value_of = [](const ShareBar& bar) { return fixed(100 * bar.share, 0) + " %"; };
    double longest = 0;
    float labels = 0;
    for (const ShareBar& bar : bars) {
        longest = std::max(longest, bar.share);
        labels = std::max(labels, text_width(font, bar.label));
    }
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const float width = ImGui::GetContentRegionAvail().x;
    const float label = std::min(labels, 0.5F * width) + frame.px(grid::small);
    const float room = width - label - text_width(font, "100 %") - frame.px(grid::small);
    for (const ShareBar& bar : bars) {
        const ImVec2 at = ImGui::GetCursorScreenPos();
        list.AddText(&font, font.FontSize, at, frame.colours().ink,
                     shortened(font, bar.label, label - frame.px(grid::hair)).c_str());
        const float part = longest > 0 ? static_cast<float>(bar.share / longest) : 0;
        const float middle = at.y + font.FontSize / 2, half = font.FontSize * 0.3F;
        list.AddRectFilled({at.x + label, middle - half},
                           {at.x + label + std::max(room * part, frame.px(1)), middle + half},
                           frame.colours().accent);
        const std::string value = value_of(bar);
        list.AddText(&font, font.FontSize, {at.x + width - text_width(font, value), at.y},
                     frame.colours().ink, value.c_str());
        ImGui::Dummy({width, font.FontSize + frame.px(grid::hair)});
    }
}

}  // namespace podwright
