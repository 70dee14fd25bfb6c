#include "file/scene_read.hpp"

#include <algorithm>
#include <string>
#include <vector>

#include "core/conflicts.hpp"
#include "core/parameters.hpp"
#include "file/choosing_fields.hpp"
#include "file/choosing_file.hpp"
#include "file/disk.hpp"
#include "file/near.hpp"
#include "file/own_mesh.hpp"
#include "file/own_part_read.hpp"
#include "file/scene.hpp"
#include "file/text_check.hpp"
#include "file/value_read.hpp"
#include "file/value_text.hpp"

namespace podwright {

namespace {

constexpr std::string_view module_key = "gears.module";
constexpr std::string_view pitch_key = "gears.diametral_pitch";

/// Names of the tables, each once, in the order of a scene file.
std::vector<std::string> table_names() {
    std::vector<std::string> names;
    for (const Parameter& parameter : parameters()) {
        const std::string table = table_of(parameter.key);
        if (!table.empty() && (names.empty() || names.back() != table)) names.push_back(table);
    }
    return names;
}

std::vector<std::string> names_in(std::string_view table) {
    std::vector<std::string> names;
    for (const Parameter& parameter : parameters())
        if (table_of(parameter.key) == table) names.push_back(name_of(parameter.key));
    return names;
}

/// "[left], [right] and [float]"
std::string in_brackets(std::vector<std::string> tables) {
    for (std::string& table : tables) table = "[" + table + "]";
    return listed(tables, "and");
}

NumberRule number_rule(const Parameter& parameter) {
    return {parameter.low,
            parameter.high,
            std::string(symbol(parameter.unit)),
            parameter.unit == Unit::count,
            parameter.unit == Unit::mm,
            {}};
}

/// What a value of this parameter looks like.
std::string wanted(const Parameter& parameter) {
    switch (parameter.kind) {
        case ValueKind::text: return "a text in quotes, " + range_text(parameter);
        case ValueKind::choice: return "one of the texts " + range_text(parameter) + ", in quotes";
        case ValueKind::list:
            return "a list of lengths such as [0.3, 0.2], " + range_text(parameter);
        case ValueKind::number: break;
    }
    return wanted(number_rule(parameter));
}

/// Fills a setup from a document. Every method throws FileError at its own place.
class Reader {
public:
    Reader(const Document& document, std::string_view name) : document_(document), name_(name) {}

    Setup read() {
        for (const Entry& entry : document_.top) read_top(entry);
        for (const TableNode& table : document_.tables) read_table(table);
        require_tables();
        for (const Parameter& parameter : parameters())
            if (parameter.required) require(parameter.key, "");
        const bool by_blade = setup_.axial_float.set_by == FloatBy::blade;
        if (by_blade)
            require("float.blade", " because the float is set by blade");
        else
            require("float.shoulder", " because the float is set by shoulder");
        finish_gears();
        setup_.choosing = read_choosing(document_, name_);
        return setup_;
    }

private:
    void read_top(const Entry& entry) {
        if (entry.name == own_part_table) return check_own_part_list(entry.value);
        if (is_choosing_name(entry.name)) return;
        if (const Parameter* parameter = find_parameter(entry.name))
            return read_value(*parameter, entry);
        const std::vector<std::string> tables = table_names();
        if (std::find(tables.begin(), tables.end(), entry.name) != tables.end())
            fail_at(name_, entry.place,
                    entry.name + " is a table, not a value; write [" + entry.name +
                        "] on a line of its own and its keys below");
        fail_at(name_, entry.place, about_key(entry.name, "", "outside of the tables"));
    }

    /// `own_part = [{ ... }]`: its tables are read as tables.
    void check_own_part_list(const Node& node) const {
        const bool list = node.kind == NodeKind::list;
        const auto wrong = std::find_if(node.items.begin(), node.items.end(), [](const Node& item) {
            return item.kind != NodeKind::table;
        });
        if (!list || wrong != node.items.end())
            fail_at(name_, list ? wrong->place : node.place,
                    "own_part " + std::string(list ? "holds " : "is ") +
                        std::string(kind_word(list ? wrong->kind : node.kind)) +
                        "; write [[own_part]] on a line of its own and its keys below");
    }

    void read_own(const TableNode& table) {
        if (!table.listed)
            fail_at(name_, table.place,
                    "own_part stands in single brackets; write [[own_part]], as there can be "
                    "several");
        setup_.own_parts.push_back(read_own_part(table, setup_.own_parts, name_));
    }

    void read_table(const TableNode& table) {
        if (table.name == own_part_table) return read_own(table);
        if (is_choosing_name(table.name)) return;
        std::vector<std::string> tables = table_names();
        const bool known = std::find(tables.begin(), tables.end(), table.name) != tables.end();
        if (known && table.listed)
            fail_at(name_, table.place,
                    table.name + " is one table, not several; write [" + table.name +
                        "] on a line of its own and its keys below");
        if (!known) {
            if (find_parameter(table.name))
                fail_at(
                    name_, table.place,
                    table.name + " is a value, not a table; write " + table.name + " = \"...\"");
            std::vector<std::string> known_tables = tables;
            for (const Section& section : choosing_sections()) {
                known_tables.push_back(section.name);
                tables.push_back(section.listed ? "[" + section.name + "]" : section.name);
            }
            known_tables.emplace_back(own_part_table);
            const std::string hint = did_you_mean(table.name, known_tables);
            tables.emplace_back("[own_part]");
            fail_at(name_, table.place,
                    "unknown table \"" + shown(table.name) + "\"" +
                        (hint.empty() ? "; the tables are " + in_brackets(tables) : hint));
        }
        for (const Entry& entry : table.entries) {
            if (const Parameter* parameter = find_parameter(table.name + "." + entry.name))
                read_value(*parameter, entry);
            else
                fail_at(name_, entry.place,
                        about_key(entry.name, table.name, "in [" + table.name + "]"));
        }
    }

    static std::string about_key(const std::string& key, const std::string& table,
                                 const std::string& where) {
        std::vector<std::string> others;
        for (const std::string& other : table_names()) {
            const std::vector<std::string> there = names_in(other);
            if (std::find(there.begin(), there.end(), key) != there.end()) others.push_back(other);
        }
        return unknown_key(
            key, where, names_in(table),
            others.empty()
                ? "; see the key table in scenes/README.md, or print it with podwright keys"
                : "; it belongs in " + in_brackets(others));
    }

    void read_value(const Parameter& parameter, const Entry& entry) {
        const Node& node = entry.value;
        switch (parameter.kind) {
            case ValueKind::text: return read_text(parameter, node);
            case ValueKind::choice: return read_choice(parameter, node);
            case ValueKind::list: return read_list(parameter, node);
            case ValueKind::number:
                return parameter.set(
                    setup_, read_number(node, number_rule(parameter), parameter.key, name_));
        }
    }

    [[noreturn]] void wrong_kind(const Parameter& parameter, const Node& node) const {
        fail_at(name_, node.place,
                parameter.key + " is " + std::string(kind_word(node.kind)) + "; it must be " +
                    wanted(parameter));
    }

    void read_text(const Parameter& parameter, const Node& node) {
        if (node.kind != NodeKind::text) wrong_kind(parameter, node);
        const std::size_t count = characters(node.text);
        if (count > parameter.longest)
            fail_at(name_, node.place,
                    parameter.key + " is " + std::to_string(count) +
                        " characters long; it must be " + range_text(parameter));
        parameter.set_text(setup_, node.text);
    }

    void read_choice(const Parameter& parameter, const Node& node) {
        if (node.kind != NodeKind::text) wrong_kind(parameter, node);
        const auto found = std::find(parameter.options.begin(), parameter.options.end(), node.text);
        if (found == parameter.options.end())
            fail_at(name_, node.place,
                    parameter.key + " is \"" + shown(node.text) + "\"; it must be " +
                        range_text(parameter) + did_you_mean(node.text, parameter.options));
        parameter.set(setup_, static_cast<double>(found - parameter.options.begin()));
    }

    void read_list(const Parameter& parameter, const Node& node) {
        if (node.kind != NodeKind::list) wrong_kind(parameter, node);
        if (node.items.size() > parameter.longest)
            fail_at(name_, node.place,
                    parameter.key + " has " + std::to_string(node.items.size()) +
                        " elements; it must have " + range_text(parameter));
        std::vector<double> list;
        for (const Node& item : node.items)
            list.push_back(read_number(item, number_rule(parameter),
                                       element_name(parameter.key, list.size()), name_));
        parameter.set_list(setup_, std::move(list));
    }

    void require_tables() const {
        std::vector<std::string> missing;
        for (const std::string& table : table_names()) {
            const bool needed =
                table == "float" || table == "gears" ||
                std::any_of(parameters().begin(), parameters().end(),
                            [&](const Parameter& parameter) {
                                return parameter.required && table_of(parameter.key) == table;
                            });
            if (needed && !document_.find_table(table)) missing.push_back(table);
        }
        if (missing.empty()) return;
        const bool nothing = document_.tables.empty() && document_.top.empty();
        fail_at(name_, document_.end,
                (nothing ? "the file describes nothing; missing parts: " : "missing parts: ") +
                    in_brackets(missing) + "; add the table" + (missing.size() > 1 ? "s" : "") +
                    " with the keys that scenes/README.md marks as required");
    }

    void require(std::string_view key, const std::string& why) const {
        if (document_.find(key)) return;
        const Parameter& parameter = *find_parameter(key);
        fail_at(name_, place_of(document_, key),
                "[" + table_of(key) + "] lacks " + name_of(key) + why + "; add " + name_of(key) +
                    " = ..., " + range_text(parameter));
    }

    void finish_gears() {
        const Entry* module = document_.find(module_key);
        const Entry* pitch = document_.find(pitch_key);
        if (module && pitch)
            fail_at(name_, std::max(module->place, pitch->place),
                    "both gears.module and gears.diametral_pitch are given; keep only one");
        if (!module && !pitch)
            fail_at(
                name_, place_of(document_, module_key),
                "[gears] lacks the size of the teeth; add diametral_pitch = 64, for example, or "
                "module = 0.4");
        setup_.gears.by_diametral_pitch = pitch != nullptr;
        if (!document_.find("gears.dedendum")) setup_.gears.dedendum = usual_dedendum(setup_.gears);
    }

    const Document& document_;
    std::string_view name_;
    Setup setup_ = default_setup();
};

}  // namespace

std::string table_of(std::string_view key) {
    const std::size_t dot = key.find('.');
    return dot == std::string_view::npos ? std::string{} : std::string(key.substr(0, dot));
}

std::string name_of(std::string_view key) { return std::string(key.substr(key.find('.') + 1)); }

bool belongs_at_top(std::string_view key) {
    return key == box_key || key == rules_key ||
           (key.find('.') == std::string_view::npos && find_parameter(key));
}

Setup read_setup(const Document& document, std::string_view name) {
    return Reader(document, name).read();
}

Place place_of(const Document& document, std::string_view key) {
    if (const Entry* entry = document.find(key)) return entry->value.place;
    if (const TableNode* table = document.find_table(table_of(key))) return table->place;
    return document.end;
}

std::string_view without_mark(std::string_view text) {
    if (text.substr(0, 3) == "\xEF\xBB\xBF") text.remove_prefix(3);
    return text;
}

namespace {

/// The scene, and the document that it was read from.
std::pair<Setup, Document> parsed(std::string_view text, std::string_view name) {
    if (text.size() > largest_scene)
        throw FileError(std::string(name) +
                        ": the text is larger than 1 MiB, which no scene needs");
    text = without_mark(text);
    if (text.empty())
        fail_at(name, {},
                "the file is empty; a scene needs at least [left], [right], [float] and [gears]");
    Document document = read_document(text, name);
    Setup setup = read_setup(document, name);
    if (const auto conflict = find_conflict(setup))
        fail_at(name, place_of(document, conflict->key), conflict->text);
    return {std::move(setup), std::move(document)};
}

}  // namespace

Setup parse_scene(std::string_view text, std::string_view name) { return parsed(text, name).first; }

Setup read_scene(const std::filesystem::path& path) {
    auto [setup, document] = parsed(read_file(path, largest_scene), path.string());
    find_own_meshes(setup, document, path);
    find_choosing_files(setup.choosing, document, path);
    return setup;
}

}  // namespace podwright
