#include "file/scene_complete.hpp"

#include <string_view>

#include "file/choosing_file.hpp"
#include "file/own_part_read.hpp"
#include "file/own_part_write.hpp"
#include "file/page.hpp"
#include "file/scene.hpp"
#include "file/value_text.hpp"

namespace podwright {

namespace {

constexpr std::size_t line_width = 96;

/// `text` as comment lines.
std::string comment(std::string_view text) {
    std::string lines;
    std::size_t used = line_width;
    while (!text.empty()) {
        const std::size_t space = std::min(text.find(' '), text.size());
        if (used + 1 + space > line_width) {
            lines += lines.empty() ? "#" : "\n#";
            used = 1;
        }
        lines += " " + std::string(text.substr(0, space));
        used += 1 + space;
        text.remove_prefix(std::min(space + 1, text.size()));
    }
    return lines + "\n";
}

std::string_view table_comment(std::string_view table) {
    if (table == "left")
        return "Left side, seen in driving direction: bearing, shims, hub, wheel, tyre.";
    if (table == "right") return "Right side: bearing, shims, gear carrier, wheel, tyre.";
    if (table == "float")
        return "How the axle's float is set, and the window that it should lie in.";
    if (table == "gears") return "Pinion and spur.";
    if (table == "motor") return "The motor and the slot that its axis can be moved along.";
    if (table == "pod") return "Plates and floor that carry axle and motor.";
    if (table == "bearing") return "The flanged bearings, alike on both sides.";
    if (table == "axle") return "The axle itself.";
    if (table == "other_axle")
        return "Another axle to compare it with; what is left out is as in [axle].";
    if (table == "car") return "The rest of the car.";
    if (table == "event") return "What the event, or good sense, asks for.";
    if (table == "needs") return "Clearances that are needed, and how far the pod leans.";
    if (table == "materials") return "What the parts are made of: how they grow with the warmth.";
    if (table == "cases") return "What the axle is held against: loads, and the least safety.";
    if (table == "temperature")
        return "At the bench, and from the coldest to the hottest of the day.";
    if (table == "tolerances")
        return "How far each length may be off, and how builds spread within it.";
    if (table == "fits")
        return "ISO 286 fits of the axle in its bearings and of those in the holders.";
    return "";
}

std::string described(const Parameter& parameter) {
    return parameter.help + " (" + range_text(parameter) + ")";
}

std::string default_text(const Parameter& parameter) {
    const bool chosen = parameter.key == "float.blade" || parameter.key == "float.shoulder";
    if (chosen) return "required if the float is set by " + parameter.key.substr(6);
    if (is_tooth_size(parameter)) return "exactly one of module and diametral_pitch is required";
    if (parameter.key == "gears.dedendum")
        return "fine-pitch for diametral_pitch of 20 or more, otherwise full-depth";
    if (parameter.required) return "required";
    if (parameter.optional) return parameter.otherwise.empty() ? "none" : parameter.otherwise;
    const Setup defaults = default_setup();
    if (parameter.kind == ValueKind::text && parameter.get_text(defaults).empty()) return "none";
    if (parameter.kind == ValueKind::list && parameter.get_list(defaults).empty()) return "none";
    return "`" + value_text(parameter, defaults) + "`";
}

std::string unit_text(const Parameter& parameter) {
    if (parameter.kind == ValueKind::choice || parameter.kind == ValueKind::text) return "text";
    if (parameter.unit == Unit::count) return "count";
    return std::string(symbol(parameter.unit));
}

}  // namespace

bool is_tooth_size(const Parameter& parameter) {
    return parameter.key == "gears.module" || parameter.key == "gears.diametral_pitch";
}

bool is_present(const Parameter& parameter, const Setup& setup) {
    if (is_tooth_size(parameter))
        return setup.gears.by_diametral_pitch == (parameter.key == "gears.diametral_pitch");
    return !parameter.optional || parameter.get(setup).has_value();
}

bool is_needed(const Parameter& parameter, const Setup& setup) {
    const bool by_blade = setup.axial_float.set_by == FloatBy::blade;
    if (parameter.key == "float.blade") return by_blade;
    if (parameter.key == "float.shoulder") return !by_blade;
    return parameter.required;
}

std::string complete_scene(const Setup& setup) {
    std::string text =
        "# A scene of Podwright: one rear axle and how it is set up.\n"
        "# Lengths are in mm; a length in inches is written with its unit, \"0.25 in\". Angles are "
        "in\n"
        "# degrees. Behind each meaning stands the range that is allowed.\n\n";
    std::string open;
    for (const Parameter& parameter : parameters()) {
        if (is_tooth_size(parameter) && !is_present(parameter, setup)) continue;
        const std::size_t dot = parameter.key.find('.');
        const std::string table = dot == std::string::npos ? "" : parameter.key.substr(0, dot);
        const std::string name = parameter.key.substr(table.empty() ? 0 : dot + 1);
        if (table != open) {
            if (open.empty()) text += choosing_top_text(setup.choosing, "\n");
            text += "\n" + comment(table_comment(table)) + "[" + table + "]\n";
            open = table;
        }
        text += comment(described(parameter));
        if (is_present(parameter, setup))
            text += name + " = " + value_text(parameter, setup) + "\n";
        else
            text += "# " + name + " = " +
                    (parameter.kind == ValueKind::choice ? quoted_text(parameter.options.front())
                                                         : number_text(parameter.low)) +
                    "\n";
    }
    text += choosing_text(setup.choosing, "\n");
    if (!setup.own_parts.empty())
        text += "\n" + comment("Meshes of your own that stand for parts, see scenes/README.md.") +
                own_part_text(setup.own_parts, "\n");
    return text;
}

std::string key_table() {
    std::string text =
        "| key | meaning | unit | default | range |\n"
        "| --- | --- | --- | --- | --- |\n";
    for (const Parameter& parameter : parameters())
        text += "| `" + parameter.key + "` | " + markdown_cell(parameter.help) + " | " +
                unit_text(parameter) + " | " + markdown_cell(default_text(parameter)) + " | " +
                markdown_cell(range_text(parameter)) + " |\n";
    return text;
}

std::string key_tables() {
    return key_table() +
           "\n| table | key | meaning | default | range |\n"
           "| --- | --- | --- | --- | --- |\n" +
           choosing_key_rows() + own_part_key_rows();
}

}  // namespace podwright
