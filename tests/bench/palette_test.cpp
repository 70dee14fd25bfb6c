#include <catch2/catch.hpp>

#include "bench/room.hpp"
#include "bench/theme.hpp"

using namespace podwright;

namespace {

constexpr ImU32 rgb(ImU32 hex) { return IM_COL32(hex >> 16 & 255, hex >> 8 & 255, hex & 255, 255); }

}  // namespace

// WCAG 2, relative luminance (w3.org/WAI/WCAG20/Understanding/contrast-minimum); the ratios
// computed at 40 digits from its formula.
TEST_CASE("contrast is that of WCAG") {
    CHECK(contrast(rgb(0x000000), rgb(0xFFFFFF)) == Approx(21));
    CHECK(contrast(rgb(0x777777), rgb(0xFFFFFF)) == Approx(4.478089454));
    CHECK(contrast(rgb(0x767676), rgb(0xFFFFFF)) == Approx(4.54222496));
    CHECK(contrast(rgb(0x949494), rgb(0xFFFFFF)) == Approx(3.033469826));
    CHECK(contrast(rgb(0x0072B2), rgb(0xD55E00)) == Approx(1.340884382));
    CHECK(contrast(rgb(0xFFFFFF), rgb(0x009E73)) == Approx(3.42114).epsilon(1e-5));
}

// Success criterion 1.4.3: 4.5 to 1 for text; 1.4.11: 3 to 1 for signs.
TEST_CASE("all text stands out from what lies behind it, light and dark") {
    for (const Palette* palette : {&light_palette, &dark_palette}) {
        const std::vector<TextOnGround> pairs = texts_on_grounds(*palette);
        const auto written_on = [&](ImU32 text) {
            return std::any_of(pairs.begin(), pairs.end(),
                               [&](const TextOnGround& pair) { return pair.text == text; });
        };
        for (const ImU32 text :
             {palette->ink, palette->quiet, palette->accent, palette->on_accent, palette->on_tip})
            CHECK(written_on(text));
        for (const TextOnGround& pair : pairs) {
            INFO((palette->dark ? "dark: " : "light: ") << pair.where);
            CHECK(contrast(pair.text, pair.ground) >= 4.5);
        }
    }
}

TEST_CASE("signs stand out: their strokes from their grounds, the triangle by its outline") {
    for (const Palette* c : {&light_palette, &dark_palette}) {
        CHECK(contrast(c->on_status, c->good) >= 3);
        CHECK(contrast(c->on_status, c->stop) >= 3);
        CHECK(contrast(c->on_warn, c->warn) >= 3);
        for (ImU32 ground : {c->paper, c->card}) {
            CHECK(contrast(c->good, ground) >= 3);
            CHECK(contrast(c->stop, ground) >= 3);
            // Orange on white has less: there the triangle is outlined with its stroke's colour.
            CHECK(std::max(contrast(c->warn, ground), contrast(c->on_warn, ground)) >= 3);
            CHECK(contrast(c->accent, ground) >= 3);
        }
    }
}

// Okabe and Ito (2008), as in rdrr.io's cb_colors.R.
TEST_CASE("status and accent are of the Okabe-Ito palette") {
    for (const Palette* c : {&light_palette, &dark_palette}) {
        CHECK(c->good == rgb(0x009E73));
        CHECK(c->warn == rgb(0xE69F00));
        CHECK(c->stop == rgb(0xD55E00));
    }
    CHECK(light_palette.accent == rgb(0x0072B2));
    CHECK(dark_palette.accent == rgb(0x56B4E9));
}

TEST_CASE("what lies over something lets it through by its alpha") {
    // Derived: half of white over black.
    CHECK(blended(IM_COL32(255, 255, 255, 128), rgb(0x000000)) == rgb(0x808080));
    CHECK(blended(rgb(0x123456), rgb(0xFFFFFF)) == rgb(0x123456));
}
