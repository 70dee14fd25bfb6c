#include <algorithm>
#include <cmath>

#include "file/choosing_fields.hpp"
#include "file/choosing_file.hpp"
#include "file/page.hpp"
#include "file/text_lines.hpp"
#include "file/value_text.hpp"

namespace podwright {

namespace {

std::string cell_text(const FieldFacts& field, const FieldValue& cell) {
    if (field.kind == FieldKind::text) return quoted_text(cell.text);
    if (cell.number) return number_text(*cell.number);
    std::string text = "[";
    for (const auto& row : cell.rows) {
        if (text.size() > 1) text += ", ";
        text += row.size() == 1 ? number_text(row[0])
                                : "[" + number_text(row[0]) + ", " + number_text(row[1]) + "]";
    }
    return text + "]";
}

/// The table of `value` after an empty line; nothing if it has nothing to say.
template <class T>
std::string table_text(const std::string& header, const std::vector<Field<T>>& fields,
                       const T& value, const std::string& newline) {
    std::string lines;
    for (const auto& field : fields) {
        const FieldValue cell = field.get(value);
        const bool as_usual = cell.number && *cell.number == field.fallback;
        if (cell.empty() || (as_usual && !field.required)) continue;
        lines += field.name + " = " + cell_text(field, cell) + newline;
    }
    return lines.empty() ? "" : newline + header + newline + lines;
}

template <class T>
std::string tables_text(const std::string& name, const std::vector<Field<T>>& fields,
                        const std::vector<T>& values, const std::string& newline) {
    std::string text;
    for (const T& value : values) text += table_text("[[" + name + "]]", fields, value, newline);
    return text;
}

std::string section_text(const std::string& name, const Choosing& c, const std::string& newline) {
    if (c.box_file.empty()) {
        if (name == box_key) return table_text("[box]", box_fields(), c.box, newline);
        if (name == "box_wheel") return tables_text(name, wheel_fields(), c.box.wheels, newline);
        if (name == "box_tyre") return tables_text(name, tyre_fields(), c.box.tyres, newline);
        if (name == "box_axle") return tables_text(name, axle_fields(), c.box.axles, newline);
    }
    if (name == "goal") return tables_text(name, goal_fields(), c.goals, newline);
    if (name == "day" && c.day.runs > 0) return table_text("[day]", day_fields(), c.day, newline);
    if (name == "rule" && c.rules_file.empty())
        return tables_text(name, rule_fields(), c.rules, newline);
    if (name == "measured") return tables_text(name, measured_fields(), c.measured, newline);
    return {};
}

/// From the header's line to the line of the last key.
Span lines_of(std::string_view text, const TableNode& table) {
    std::size_t end = table.span.end;
    for (const Entry& entry : table.entries) end = std::max(end, entry.value.span.end);
    return {line_begin(text, table.span.begin), line_end(text, end)};
}

std::string file_line(const char* key, const std::string& file, const std::string& newline) {
    return file.empty() ? "" : std::string(key) + " = " + quoted_text(file) + newline;
}

}  // namespace

std::string choosing_top_text(const Choosing& choosing, const std::string& newline) {
    return file_line(box_key, choosing.box_file, newline) +
           file_line(rules_key, choosing.rules_file, newline);
}

std::string choosing_text(const Choosing& choosing, const std::string& newline) {
    std::string text;
    for (const Section& section : choosing_sections())
        text += section_text(section.name, choosing, newline);
    return text;
}

bool same_choosing(const Choosing& a, const Choosing& b) {
    return choosing_top_text(a, "\n") == choosing_top_text(b, "\n") &&
           choosing_text(a, "\n") == choosing_text(b, "\n");
}

std::vector<Edit> choosing_edits(std::string_view text, const Document& document,
                                 const Choosing& before, const Choosing& after,
                                 const std::string& newline) {
    std::vector<Edit> edits;
    const auto file = [&](const char* key, const std::string& old, const std::string& now) {
        if (old == now) return;
        const Entry* entry = document.find_top(key);
        if (entry && entry->value.kind == NodeKind::text && !now.empty())
            edits.push_back({entry->value.span, quoted_text(now)});
        else if (entry && entry->value.kind == NodeKind::text)
            edits.push_back(
                {{line_begin(text, entry->span.begin), line_end(text, entry->value.span.end)}, ""});
        else  // what stands outside of tables comes first
            edits.push_back({{0, 0}, file_line(key, now, newline)});
    };
    file(box_key, before.box_file, after.box_file);
    file(rules_key, before.rules_file, after.rules_file);
    std::string added;
    for (const Section& section : choosing_sections()) {
        const std::string now = section_text(section.name, after, newline);
        if (section_text(section.name, before, newline) == now) continue;
        for (const TableNode& table : document.tables)
            if (table.name == section.name) edits.push_back({lines_of(text, table), ""});
        added += now;
    }
    if (!added.empty()) {
        const bool unfinished = !text.empty() && text.back() != '\n';
        edits.push_back({{text.size(), text.size()}, (unfinished ? newline : "") + added});
    }
    return edits;
}

std::string choosing_key_rows() {
    std::string text;
    for (const auto& [key, what] : {std::pair{box_key, "parts box"}, std::pair{rules_key, "rules"}})
        text += "| at the top | `" + std::string(key) +
                "` | File beside the scene that holds the " + what + ", in place of " +
                (key == std::string_view(box_key) ? "`[box]` and its kind" : "`[[rule]]`") +
                ". | none | name of a .toml file |\n";
    for (const Section& section : choosing_sections())
        for (const FieldFacts& field : section.fields) {
            const std::string usual = field.usual.empty() ? "none" : "`" + field.usual + "`";
            text += "| `" + std::string(section.listed ? "[[" : "[") + section.name +
                    (section.listed ? "]]" : "]") + "` | `" + field.name + "` | " +
                    markdown_cell(field.help) + " | " + (field.required ? "required" : usual) +
                    " | " + markdown_cell(range_text(field)) + " |\n";
        }
    return text;
}

}  // namespace podwright
