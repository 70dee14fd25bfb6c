#include "bench/theme.hpp"

#include <fontconfig/fontconfig.h>
#include <imgui_freetype.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <string>

#include "core/units.hpp"

namespace podwright {

namespace {

constexpr ImU32 rgb(ImU32 hex, ImU32 alpha = 255) {
    return IM_COL32(hex >> 16 & 255, hex >> 8 & 255, hex & 255, alpha);
}

// Okabe and Ito (2008).
constexpr ImU32 orange = rgb(0xE69F00), sky_blue = rgb(0x56B4E9), bluish_green = rgb(0x009E73),
                blue = rgb(0x0072B2), vermillion = rgb(0xD55E00);

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

void set_colours(const Palette& c) {
    ImGuiStyle& style = ImGui::GetStyle();
    if (c.dark)
        ImGui::StyleColorsDark(&style);
    else
        ImGui::StyleColorsLight(&style);
    const auto set = [&](ImGuiCol which, ImU32 colour) {
        style.Colors[which] = ImGui::ColorConvertU32ToFloat4(colour);
    };
    set(ImGuiCol_Text, c.ink);
    set(ImGuiCol_TextDisabled, c.quiet);
    set(ImGuiCol_WindowBg, c.paper);
    set(ImGuiCol_ChildBg, IM_COL32(0, 0, 0, 0));
    set(ImGuiCol_PopupBg, c.card);
    set(ImGuiCol_Border, c.line);
    set(ImGuiCol_FrameBg, c.field);
    set(ImGuiCol_FrameBgHovered, c.field_over);
    set(ImGuiCol_FrameBgActive, c.field_down);
    set(ImGuiCol_TitleBg, c.card);
    set(ImGuiCol_TitleBgActive, c.card);
    set(ImGuiCol_Button, c.field);
    set(ImGuiCol_ButtonHovered, c.field_over);
    set(ImGuiCol_ButtonActive, c.field_down);
    set(ImGuiCol_Header, c.chosen);
    set(ImGuiCol_HeaderHovered, c.field_over);
    set(ImGuiCol_HeaderActive, c.field_down);
    set(ImGuiCol_Separator, c.line);
    set(ImGuiCol_CheckMark, c.accent);
    set(ImGuiCol_SliderGrab, c.accent);
    set(ImGuiCol_SliderGrabActive, c.accent);
    set(ImGuiCol_TextSelectedBg, c.chosen);
    set(ImGuiCol_ScrollbarBg, IM_COL32(0, 0, 0, 0));
    set(ImGuiCol_ScrollbarGrab, c.line);
    set(ImGuiCol_ScrollbarGrabHovered, c.quiet);
    set(ImGuiCol_ScrollbarGrabActive, c.quiet);
    set(ImGuiCol_NavHighlight, c.accent);
    set(ImGuiCol_ModalWindowDimBg, IM_COL32(0x10, 0x14, 0x18, 110));
}

void set_style(float scale, const Palette& colours) {
    ImGui::GetStyle() = ImGuiStyle();
    ImGuiStyle& style = ImGui::GetStyle();
    style.WindowRounding = grid::card_rounding;
    style.ChildRounding = grid::rounding;
    style.PopupRounding = grid::card_rounding;
    style.FrameRounding = grid::rounding;
    style.GrabRounding = grid::rounding;
    style.ScrollbarRounding = grid::rounding;
    style.ScrollbarSize = grid::small;
    style.WindowPadding = {grid::large, grid::medium};
    style.FramePadding = {grid::small, grid::hair};
    style.ItemSpacing = {grid::small, grid::hair};
    style.WindowBorderSize = 1;
    style.PopupBorderSize = 1;
    style.WindowTitleAlign = {0, 0.5F};
    style.ScaleAllSizes(scale);
    set_colours(colours);
}

void draw_octagon(ImDrawList& list, const Palette& colours, ImVec2 at, float radius) {
    ImVec2 corners[8];
    for (int i = 0; i < 8; ++i) {
        const double angle = pi / 8 + i * pi / 4;
        corners[i] = {at.x + radius * static_cast<float>(std::cos(angle)),
                      at.y + radius * static_cast<float>(std::sin(angle))};
    }
    list.AddConvexPolyFilled(corners, 8, colours.stop);
    list.AddPolyline(corners, 8, colours.on_warn, ImDrawFlags_Closed, 1);
}

}  // namespace

const Palette light_palette = {
    .dark = false,
    .ink = rgb(0x1C232B),
    .quiet = rgb(0x56606C),
    .line = rgb(0xD3D8DE),
    .paper = rgb(0xF7F8F9),
    .card = rgb(0xFFFFFF),
    .field = rgb(0xE9ECEF),
    .field_over = rgb(0xDCE6EE),
    .field_down = rgb(0xC8DAE7),
    .accent = blue,
    .accent_over = rgb(0x005F96),
    .on_accent = rgb(0xFFFFFF),
    .chosen = rgb(0xDCEAF4),
    .plate = rgb(0xFFFFFF, 228),
    .halo = rgb(0xFFFFFF, 150),
    .tip = rgb(0x1C232B),
    .on_tip = rgb(0xFFFFFF),
    .good = bluish_green,
    .warn = orange,
    .stop = vermillion,
    .on_status = rgb(0xFFFFFF),
    .on_warn = rgb(0x1C232B),
};

const Palette dark_palette = {
    .dark = true,
    .ink = rgb(0xECEFF2),
    .quiet = rgb(0xABB5BF),
    .line = rgb(0x3D4650),
    .paper = rgb(0x1A1F25),
    .card = rgb(0x242A32),
    .field = rgb(0x2F3741),
    .field_over = rgb(0x3B4651),
    .field_down = rgb(0x475564),
    .accent = sky_blue,
    .accent_over = rgb(0x7CC6EF),
    .on_accent = rgb(0x0F151B),
    .chosen = rgb(0x233F52),
    .plate = rgb(0x1A1F25, 228),
    .halo = rgb(0x0B0E11, 170),
    .tip = rgb(0xECEFF2),
    .on_tip = rgb(0x1A1F25),
    .good = bluish_green,
    .warn = orange,
    .stop = vermillion,
    .on_status = rgb(0xFFFFFF),
    .on_warn = rgb(0x1C232B),
};

double contrast(ImU32 a, ImU32 b) {
    const auto luminance = [](ImU32 colour) {
        const auto channel = [&](int shift) {
            const double c = static_cast<double>(colour >> shift & 255) / 255;
            return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
        };
        return 0.2126 * channel(IM_COL32_R_SHIFT) + 0.7152 * channel(IM_COL32_G_SHIFT) +
               0.0722 * channel(IM_COL32_B_SHIFT);
    };
    const double one = luminance(a) + 0.05;
    const double two = luminance(b) + 0.05;
    return std::max(one, two) / std::min(one, two);
}

ImU32 blended(ImU32 over, ImU32 ground) {
    const ImU32 alpha = over >> IM_COL32_A_SHIFT & 255;
    const auto channel = [&](int shift) {
        return ((over >> shift & 255) * alpha + (ground >> shift & 255) * (255 - alpha) + 127) /
               255;
    };
    return IM_COL32(channel(IM_COL32_R_SHIFT), channel(IM_COL32_G_SHIFT), channel(IM_COL32_B_SHIFT),
                    255);
}

std::vector<TextOnGround> texts_on_grounds(const Palette& colours) {
    const Palette& c = colours;
    const ImU32 over_black = blended(c.plate, IM_COL32(0, 0, 0, 255));
    const ImU32 over_white = blended(c.plate, IM_COL32(255, 255, 255, 255));
    return {
        {"panel", c.ink, c.paper},
        {"panel, quiet", c.quiet, c.paper},
        {"panel, accent", c.accent, c.paper},
        {"card", c.ink, c.card},
        {"card, quiet", c.quiet, c.card},
        {"card, accent", c.accent, c.card},
        {"button", c.ink, c.field},
        {"button, quiet", c.quiet, c.field},
        {"button under the pointer", c.ink, c.field_over},
        {"button, pressed", c.ink, c.field_down},
        {"main button", c.on_accent, c.accent},
        {"main button under the pointer", c.on_accent, c.accent_over},
        {"chosen row", c.ink, c.chosen},
        {"message line", c.on_tip, c.tip},
        {"plate on black", c.ink, over_black},
        {"plate on white", c.ink, over_white},
        {"quiet on a plate on black", c.quiet, over_black},
        {"quiet on a plate on white", c.quiet, over_white},
    };
}

Type set_type_and_style(float scale, bool dark) {
    ImGuiIO& io = ImGui::GetIO();
    io.Fonts->Clear();
    io.Fonts->FontBuilderIO = ImGuiFreeType::GetBuilderForFreeType();
    io.Fonts->FontBuilderFlags = ImGuiFreeTypeBuilderFlags_LightHinting;
    io.Fonts->Flags |= ImFontAtlasFlags_NoMouseCursors;
    const std::string regular = font_file("Inter", FC_WEIGHT_REGULAR);
    const std::string semibold = font_file("Inter", FC_WEIGHT_DEMIBOLD);
    Type type;
    type.scale = scale;
    type.text = add_font(regular, std::round(15 * scale));
    type.strong = add_font(semibold, std::round(15 * scale));
    type.small = add_font(regular, std::round(14 * scale));
    type.large = add_font(semibold, std::round(20 * scale));
    type.strong_small = add_font(semibold, std::round(14 * scale));
    type.caption = add_font(semibold, std::round(12 * scale));
    type.colours = dark ? &dark_palette : &light_palette;
    set_style(scale, *type.colours);
    return type;
}

void set_dark(Type& type, bool dark) {
    type.colours = dark ? &dark_palette : &light_palette;
    set_colours(*type.colours);
}

Status status_of(Level level) {
    switch (level) {
        case Level::stop: return Status::stop;
        case Level::caution: return Status::caution;
        case Level::note: break;
    }
    return Status::none;
}

void draw_status_sign(ImDrawList& list, const Palette& colours, Status status, ImVec2 at,
                      float size) {
    const float r = size / 2;
    const float stroke = std::max(1.0F, size / 9);
    switch (status) {
        case Status::none: list.AddCircle(at, r * 0.45F, colours.quiet, 0, stroke); break;
        case Status::ok:
            list.AddCircleFilled(at, r, colours.good);
            list.AddLine({at.x - r * 0.45F, at.y}, {at.x - r * 0.1F, at.y + r * 0.38F},
                         colours.on_status, stroke);
            list.AddLine({at.x - r * 0.1F, at.y + r * 0.38F}, {at.x + r * 0.5F, at.y - r * 0.36F},
                         colours.on_status, stroke);
            break;
        case Status::caution:
            list.AddTriangleFilled({at.x, at.y - r}, {at.x + r, at.y + r * 0.8F},
                                   {at.x - r, at.y + r * 0.8F}, colours.warn);
            list.AddTriangle({at.x, at.y - r}, {at.x + r, at.y + r * 0.8F},
                             {at.x - r, at.y + r * 0.8F}, colours.on_warn, 1);
            list.AddLine({at.x, at.y - r * 0.35F}, {at.x, at.y + r * 0.25F}, colours.on_warn,
                         stroke);
            list.AddCircleFilled({at.x, at.y + r * 0.52F}, stroke * 0.6F, colours.on_warn);
            break;
        case Status::stop:
            draw_octagon(list, colours, at, r);
            list.AddLine({at.x - r * 0.45F, at.y}, {at.x + r * 0.45F, at.y}, colours.on_status,
                         stroke * 1.3F);
            break;
    }
}

}  // namespace podwright
