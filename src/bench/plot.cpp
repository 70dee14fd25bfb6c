#include "bench/plot.hpp"

#include <algorithm>
#include <cstdio>

namespace podwright {

namespace {

std::string number(double value, int decimals) {
    char text[32];
    std::snprintf(text, sizeof text, "%.*f", decimals, value);
    return text;
}

float text_width(const ImFont& font, const std::string& text) {
    return font.CalcTextSizeA(font.FontSize, 1e9F, 0, text.c_str()).x;
}

/// The axis of a histogram: where its values stand, in pixels.
struct Scale {
    ImVec2 low, high;    // corners of the field
    double least, most;  // values at its ends
    float at(double value) const {
        const double t = std::clamp((value - least) / (most - least), 0.0, 1.0);
        return low.x + static_cast<float>(t) * (high.x - low.x);
    }
};

void draw_classes(WindowFrame& frame, const HistogramPlot& plot, const Scale& scale) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const double tallest = *std::max_element(plot.counts.begin(), plot.counts.end());
    const double width = (plot.high - plot.low) / static_cast<double>(plot.counts.size());
    for (std::size_t i = 0; i < plot.counts.size(); ++i) {
        if (plot.counts[i] <= 0) continue;
        const double from = plot.low + width * static_cast<double>(i);
        const double middle = from + width / 2;
        const float part = static_cast<float>(plot.counts[i] / tallest);
        const ImVec2 a{scale.at(from) + 1, scale.high.y - part * (scale.high.y - scale.low.y)};
        const ImVec2 b{scale.at(from + width), scale.high.y};
        const bool inside =
            (!plot.least || middle >= *plot.least) && (!plot.most || middle <= *plot.most);
        if (inside)
            list.AddRectFilled(a, b, frame.colours().accent);
        else
            list.AddRect(a, b, frame.colours().stop, 0, 0, frame.px(1.5F));
    }
}

void draw_limit(WindowFrame& frame, const HistogramPlot& plot, const Scale& scale, double limit) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const ImFont& font = *frame.type.caption;
    const float x = scale.at(limit);
    list.AddLine({x, scale.low.y - frame.px(2)}, {x, scale.high.y + frame.px(4)},
                 frame.colours().ink, frame.px(1.5F));
    const std::string text = number(limit, plot.decimals) + " " + plot.unit;
    const float width = text_width(font, text);
    const float left = std::clamp(x - width / 2, scale.low.x, scale.high.x - width);
    list.AddText(&font, font.FontSize, {left, scale.high.y + frame.px(5)}, frame.colours().ink,
                 text.c_str());
}

}  // namespace

void draw_histogram(WindowFrame& frame, const HistogramPlot& plot, float height) {
    if (plot.counts.empty() || !(plot.high > plot.low)) return;
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float width = ImGui::GetContentRegionAvail().x;
    const float foot = frame.type.caption->FontSize + frame.px(8);
    const Scale scale{{at.x, at.y + frame.px(4)},
                      {at.x + width, at.y + frame.px(height) - foot},
                      plot.low,
                      plot.high};
    draw_classes(frame, plot, scale);
    ImGui::GetWindowDrawList()->AddLine({scale.low.x, scale.high.y}, scale.high,
                                        frame.colours().quiet, frame.px(1));
    for (const std::optional<double>& limit : {plot.least, plot.most})
        if (limit && *limit > plot.low && *limit < plot.high)
            draw_limit(frame, plot, scale, *limit);
    ImGui::Dummy({width, frame.px(height)});
}

void draw_bars(WindowFrame& frame, const std::vector<ShareBar>& bars) {
    double longest = 0;
    float values = 0;
    const ImFont& font = *frame.type.small;
    for (const ShareBar& bar : bars) {
        longest = std::max(longest, bar.share);
        values = std::max(values, text_width(font, bar.value));
    }
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const float width = ImGui::GetContentRegionAvail().x;
    const float label = 0.46F * width;
    const float room = width - label - values - frame.px(grid::small);
    for (const ShareBar& bar : bars) {
        const ImVec2 at = ImGui::GetCursorScreenPos();
        list.AddText(&font, font.FontSize, at, frame.colours().ink,
                     shortened(font, bar.label, label - frame.px(grid::small)).c_str());
        const float length = longest > 0 ? room * static_cast<float>(bar.share / longest) : 0;
        list.AddRectFilled(
            {at.x + label, at.y + font.FontSize * 0.25F},
            {at.x + label + std::max(length, frame.px(1)), at.y + font.FontSize * 0.95F},
            frame.colours().accent);
        list.AddText(&font, font.FontSize, {at.x + width - text_width(font, bar.value), at.y},
                     frame.colours().quiet, bar.value.c_str());
        ImGui::Dummy({width, font.FontSize + frame.px(grid::hair)});
    }
}

}  // namespace podwright
