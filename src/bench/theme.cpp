#include "bench/theme.hpp"

#include <fontconfig/fontconfig.h>
#include <imgui_freetype.h>

#include <cmath>
#include <memory>
#include <string>

#include "core/units.hpp"

namespace podwright {

namespace {

/// File of the best match for a family and weight; empty if fontconfig has nothing.
std::string font_file(const char* family, int weight) {
    struct Destroy {
        void operator()(FcPattern* p) const { FcPatternDestroy(p); }
    };
    FcConfig* config = FcInitLoadConfigAndFonts();
    if (!config) return {};
    const std::unique_ptr<FcPattern, Destroy> wanted(FcPatternCreate());
    FcPatternAddString(wanted.get(), FC_FAMILY, reinterpret_cast<const FcChar8*>(family));
    FcPatternAddInteger(wanted.get(), FC_WEIGHT, weight);
    FcPatternAddInteger(wanted.get(), FC_SLANT, FC_SLANT_ROMAN);
    FcPatternAddBool(wanted.get(), FC_SCALABLE, FcTrue);
    FcConfigSubstitute(config, wanted.get(), FcMatchPattern);
    FcDefaultSubstitute(wanted.get());
    std::string file;
    {
        FcResult result = FcResultNoMatch;
        const std::unique_ptr<FcPattern, Destroy> match(FcFontMatch(config, wanted.get(), &result));
        FcChar8* name = nullptr;
        if (match && FcPatternGetString(match.get(), FC_FILE, 0, &name) == FcResultMatch)
            file = reinterpret_cast<const char*>(name);
    }
    FcConfigDestroy(config);
    return file;
}

ImFont* add_font(const std::string& file, float size) {
    ImGuiIO& io = ImGui::GetIO();
    static const ImWchar ranges[] = {0x20,   0x17F,  0x2010, 0x2044, 0x2190,
                                     0x2193, 0x2212, 0x2212, 0};
    ImFont* font = nullptr;
    if (!file.empty()) font = io.Fonts->AddFontFromFileTTF(file.c_str(), size, nullptr, ranges);
    if (font) return font;
    ImFontConfig plain;
    plain.SizePixels = size;
    return io.Fonts->AddFontDefault(&plain);
}

void set_style(float scale) {
    ImGui::GetStyle() = ImGuiStyle();
    ImGuiStyle& style = ImGui::GetStyle();
    ImGui::StyleColorsLight(&style);
    style.WindowRounding = 8;
    style.ChildRounding = 6;
    style.PopupRounding = 6;
    style.FrameRounding = 5;
    style.GrabRounding = 5;
    style.ScrollbarRounding = 6;
    style.ScrollbarSize = 10;
    style.WindowPadding = {14, 12};
    style.FramePadding = {8, 5};
    style.ItemSpacing = {8, 6};
    style.WindowBorderSize = 1;
    style.PopupBorderSize = 1;
    style.ScaleAllSizes(scale);
    const auto set = [&](ImGuiCol which, ImU32 colour) {
        style.Colors[which] = ImGui::ColorConvertU32ToFloat4(colour);
    };
    set(ImGuiCol_Text, theme::ink);
    set(ImGuiCol_TextDisabled, theme::quiet);
    set(ImGuiCol_WindowBg, theme::paper);
    set(ImGuiCol_PopupBg, theme::white);
    set(ImGuiCol_Border, theme::line);
    set(ImGuiCol_FrameBg, theme::field);
    set(ImGuiCol_FrameBgHovered, IM_COL32(0xDF, 0xE4, 0xE9, 255));
    set(ImGuiCol_FrameBgActive, IM_COL32(0xD3, 0xDA, 0xE1, 255));
    set(ImGuiCol_Button, theme::field);
    set(ImGuiCol_ButtonHovered, IM_COL32(0xDC, 0xE6, 0xEE, 255));
    set(ImGuiCol_ButtonActive, IM_COL32(0xC5, 0xDA, 0xE8, 255));
    set(ImGuiCol_Header, theme::accent_soft);
    set(ImGuiCol_HeaderHovered, IM_COL32(0x00, 0x72, 0xB2, 30));
    set(ImGuiCol_HeaderActive, IM_COL32(0x00, 0x72, 0xB2, 60));
    set(ImGuiCol_CheckMark, theme::accent);
    set(ImGuiCol_SliderGrab, theme::accent);
    set(ImGuiCol_SliderGrabActive, theme::accent);
    set(ImGuiCol_TextSelectedBg, theme::accent_soft);
    set(ImGuiCol_ScrollbarBg, IM_COL32(0, 0, 0, 0));
    set(ImGuiCol_ScrollbarGrab, IM_COL32(0xC4, 0xCB, 0xD3, 255));
    set(ImGuiCol_NavHighlight, theme::accent);
    set(ImGuiCol_ModalWindowDimBg, IM_COL32(0x1E, 0x25, 0x2E, 90));
}

void draw_octagon(ImDrawList& list, ImVec2 at, float radius) {
    ImVec2 corners[8];
    for (int i = 0; i < 8; ++i) {
        const double angle = pi / 8 + i * pi / 4;
        corners[i] = {at.x + radius * static_cast<float>(std::cos(angle)),
                      at.y + radius * static_cast<float>(std::sin(angle))};
    }
    list.AddConvexPolyFilled(corners, 8, theme::stop);
    list.AddPolyline(corners, 8, theme::ink, ImDrawFlags_Closed, 1);
}

}  // namespace

Type set_type_and_style(float scale) {
    ImGuiIO& io = ImGui::GetIO();
    io.Fonts->Clear();
    io.Fonts->FontBuilderIO = ImGuiFreeType::GetBuilderForFreeType();
    io.Fonts->FontBuilderFlags = ImGuiFreeTypeBuilderFlags_LightHinting;
    io.Fonts->Flags |= ImFontAtlasFlags_NoMouseCursors;
    const std::string regular = font_file("Inter", FC_WEIGHT_REGULAR);
    const std::string semibold = font_file("Inter", FC_WEIGHT_DEMIBOLD);
    Type type;
    type.scale = scale;
    type.text = add_font(regular, std::round(16 * scale));
    type.strong = add_font(semibold, std::round(16 * scale));
    type.small = add_font(regular, std::round(14 * scale));
    type.large = add_font(semibold, std::round(21 * scale));
    set_style(scale);
    return type;
}

Status status_of(Level level) {
    switch (level) {
        case Level::stop: return Status::stop;
        case Level::caution: return Status::caution;
        case Level::note: break;
    }
    return Status::none;
}

void draw_status_sign(ImDrawList& list, Status status, ImVec2 at, float size) {
    const float r = size / 2;
    const float stroke = std::max(1.0F, size / 9);
    switch (status) {
        case Status::none: list.AddCircle(at, r * 0.45F, theme::quiet, 0, stroke); break;
        case Status::ok:
            list.AddCircleFilled(at, r, theme::good);
            list.AddLine({at.x - r * 0.45F, at.y}, {at.x - r * 0.1F, at.y + r * 0.38F},
                         theme::white, stroke);
            list.AddLine({at.x - r * 0.1F, at.y + r * 0.38F}, {at.x + r * 0.5F, at.y - r * 0.36F},
                         theme::white, stroke);
            break;
        case Status::caution:
            list.AddTriangleFilled({at.x, at.y - r}, {at.x + r, at.y + r * 0.8F},
                                   {at.x - r, at.y + r * 0.8F}, theme::warn);
            list.AddTriangle({at.x, at.y - r}, {at.x + r, at.y + r * 0.8F},
                             {at.x - r, at.y + r * 0.8F}, theme::ink, 1);
            list.AddLine({at.x, at.y - r * 0.35F}, {at.x, at.y + r * 0.25F}, theme::ink, stroke);
            list.AddCircleFilled({at.x, at.y + r * 0.52F}, stroke * 0.6F, theme::ink);
            break;
        case Status::stop:
            draw_octagon(list, at, r);
            list.AddLine({at.x - r * 0.45F, at.y}, {at.x + r * 0.45F, at.y}, theme::white,
                         stroke * 1.3F);
            break;
    }
}

}  // namespace podwright
