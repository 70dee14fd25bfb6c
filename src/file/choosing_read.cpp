#include <algorithm>

#include "file/choosing_fields.hpp"
#include "file/choosing_file.hpp"
#include "file/disk.hpp"
#include "file/near.hpp"
#include "file/own_mesh.hpp"
#include "file/scene.hpp"
#include "file/scene_read.hpp"
#include "file/text_check.hpp"
#include "file/value_read.hpp"
#include "file/value_text.hpp"

namespace podwright {

namespace {

constexpr std::size_t largest_file = 1U << 20U;

const Section* find_section(std::string_view name) {
    const auto& all = choosing_sections();
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const Section& s) { return s.name == name; });
    return found == all.end() ? nullptr : &*found;
}

std::string header(const Section& section) {
    return section.listed ? "[[" + section.name + "]]" : "[" + section.name + "]";
}

NumberRule number_rule(const FieldFacts& field) {
    const bool whole = field.kind == FieldKind::count || field.kind == FieldKind::counts;
    const bool length = field.kind == FieldKind::length || field.kind == FieldKind::lengths ||
                        field.kind == FieldKind::amounts;
    const char* unit = length ? "mm" : field.kind == FieldKind::counts ? "teeth" : "";
    return {field.low, field.high, unit, whole, length, {}};
}

std::string wanted(const FieldFacts& field) {
    switch (field.kind) {
        case FieldKind::text: return "a text in quotes, " + range_text(field);
        case FieldKind::number:
        case FieldKind::length:
        case FieldKind::count: return wanted(number_rule(field));
        case FieldKind::quantity: return "a number, " + range_text(field);
        case FieldKind::lengths: return "a list such as [0.1, 0.15], " + range_text(field);
        case FieldKind::counts: return "a list such as [32, 33], " + range_text(field);
        case FieldKind::amounts:
            return "a list of what and how many, such as [[0.5, 4], [1.0, 2]], " +
                   range_text(field);
    }
    return {};
}

/// Reads one table into a T; every method throws FileError at its own place.
class TableReader {
public:
    TableReader(const Section& section, const TableNode& table, std::string_view name)
        : section_(section), table_(table), name_(name) {}

    template <class T>
    T read(const std::vector<Field<T>>& fields) const {
        T result;
        for (const Entry& entry : table_.entries) {
            const auto field = std::find_if(fields.begin(), fields.end(),
                                            [&](const auto& f) { return f.name == entry.name; });
            if (field == fields.end()) unknown(entry);
            field->set(result, value_of(*field, entry.value));
        }
        for (const auto& field : fields)
            if (field.required && !table_.find(field.name))
                fail_at(name_, table_.place,
                        header(section_) + " lacks " + field.name + "; add " + field.name +
                            " = ..., " + wanted(field));
        return result;
    }

private:
    [[noreturn]] void unknown(const Entry& entry) const {
        std::vector<std::string> names;
        for (const FieldFacts& field : section_.fields) names.push_back(field.name);
        fail_at(name_, entry.place,
                unknown_key(entry.name, "in " + header(section_), names,
                            "; the keys are " + listed(names, "and")));
    }

    std::string key(const FieldFacts& field) const { return section_.name + "." + field.name; }

    [[noreturn]] void wrong(const FieldFacts& field, const Node& node,
                            const std::string& is) const {
        fail_at(name_, node.place, key(field) + " is " + is + "; it must be " + wanted(field));
    }

    FieldValue value_of(const FieldFacts& field, const Node& node) const {
        switch (field.kind) {
            case FieldKind::text: return {{}, text(field, node), {}};
            case FieldKind::number:
            case FieldKind::length:
            case FieldKind::count:
            case FieldKind::quantity:
                return {read_number(node, rule_of(field), key(field), name_), "", {}};
            case FieldKind::lengths:
            case FieldKind::counts:
            case FieldKind::amounts: return {{}, "", rows(field, node)};
        }
        return {};
    }

    std::string text(const FieldFacts& field, const Node& node) const {
        if (node.kind != NodeKind::text) wrong(field, node, std::string(kind_word(node.kind)));
        const std::size_t count = characters(node.text);
        if (!is_plain(node.text))
            wrong(field, node, "\"" + shown(node.text) + "\", with a character that nobody sees");
        if (count < static_cast<std::size_t>(field.low)) wrong(field, node, "empty");
        if (count > static_cast<std::size_t>(field.high))
            wrong(field, node, std::to_string(count) + " characters long");
        if (!field.words.empty() &&
            std::find(field.words.begin(), field.words.end(), node.text) == field.words.end())
            fail_at(name_, node.place,
                    key(field) + " is \"" + shown(node.text) + "\"; it must be " +
                        (names_readings(field) ? "the " : "") + range_text(field) +
                        did_you_mean(node.text, field.words));
        return node.text;
    }

    /// What a number must be; a quantity has the unit of what the table names.
    NumberRule rule_of(const FieldFacts& field) const {
        NumberRule rule = number_rule(field);
        if (field.kind != FieldKind::quantity) return rule;
        const Entry* about = table_.find(section_.fields.front().name);
        const auto unit = about ? unit_of(about->value.text) : std::nullopt;
        // What is named wrongly, or not at all, has its own complaint.
        rule.length = !unit || *unit == "mm";
        rule.unit = rule.length ? "mm" : *unit;
        if (!rule.length)
            rule.why =
                (unit->empty() ? ", without a unit as in " : ", the unit of ") + about->value.text;
        return rule;
    }

    std::vector<std::vector<double>> rows(const FieldFacts& field, const Node& node) const {
        if (node.kind != NodeKind::list) wrong(field, node, std::string(kind_word(node.kind)));
        if (node.items.size() > most_rows)
            wrong(field, node, "a list of " + std::to_string(node.items.size()));
        std::vector<std::vector<double>> rows;
        for (const Node& item : node.items) {
            const std::string what = element_name(key(field), rows.size());
            std::vector<double> row;
            if (field.kind == FieldKind::amounts) {
                if (item.kind != NodeKind::list || item.items.size() != 2)
                    fail_at(name_, item.place,
                            what + " is " +
                                (item.kind == NodeKind::list ? "not a pair"
                                                             : std::string(kind_word(item.kind))) +
                                "; it must be what and how many, such as [0.5, 4]");
                row = {read_number(item.items[0], number_rule(field), what, name_),
                       amount(item.items[1], what)};
            } else {
                row = {read_number(item, number_rule(field), what, name_)};
            }
            const bool measured = section_.name == "day";
            if (!measured && std::any_of(rows.begin(), rows.end(),
                                         [&](const auto& r) { return r[0] == row[0]; }))
                fail_at(
                    name_, item.place,
                    key(field) + " has " + number_text(row[0]) + " a second time; keep only one");
            rows.push_back(std::move(row));
        }
        return rows;
    }

    double amount(const Node& node, const std::string& what) const {
        constexpr double most = 99;
        return read_number(node, {1, most, "", true, false, {}}, "how many there are of " + what,
                           name_);
    }

    const Section& section_;
    const TableNode& table_;
    std::string_view name_;
};

/// Fills a Choosing table by table.
class Reader {
public:
    Reader(const Document& document, std::string_view name) : document_(document), name_(name) {}

    Choosing read() {
        read_file_name(box_key, choosing_.box_file);
        read_file_name(rules_key, choosing_.rules_file);
        for (const TableNode& table : document_.tables)
            if (const Section* section = find_section(table.name)) read_table(*section, table);
        check_glue();
        return choosing_;
    }

private:
    void read_file_name(const char* key, std::string& file) const {
        const Entry* entry = document_.find_top(key);
        if (!entry) return;
        const Node& node = entry->value;
        constexpr std::size_t longest = 1000;
        const bool plain = is_plain(node.text);
        if (node.kind != NodeKind::text || node.text.empty() || node.text.size() > longest ||
            !plain || node.text.find(".toml") == std::string::npos)
            fail_at(name_, node.place,
                    std::string(key) + " must be the name of a file in quotes, such as \"" + key +
                        ".toml\"" + (key == std::string(box_key) ? ", or a table [box]" : ""));
        file = node.text;
    }

    void read_table(const Section& section, const TableNode& table) {
        if (section.listed != table.listed)
            fail_at(name_, table.place,
                    section.name + (section.listed
                                        ? " stands in single brackets; write [[" + section.name +
                                              "]], as there can be several"
                                        : " is one table, not several; write [" + section.name +
                                              "] on a line of its own and its keys below"));
        const bool of_box = section.name.rfind(box_key, 0) == 0;
        if ((of_box && !choosing_.box_file.empty()) ||
            (section.name == "rule" && !choosing_.rules_file.empty()))
            fail_at(name_, table.place,
                    header(section) + " stands beside " +
                        (of_box ? "box = \"" + choosing_.box_file
                                : "rules = \"" + choosing_.rules_file) +
                        "\"; keep it in one place, here or in that file");
        const TableReader reader(section, table, name_);
        if (section.name == box_key) {
            const PartsBox box = reader.read(box_fields());
            choosing_.box.shims = box.shims;
            choosing_.box.holders = box.holders;
            choosing_.box.pinions = box.pinions;
            choosing_.box.spurs = box.spurs;
            choosing_.box.blades = box.blades;
        } else if (section.name == "box_wheel") {
            add(choosing_.box.wheels, reader.read(wheel_fields()), table);
        } else if (section.name == "box_tyre") {
            add(choosing_.box.tyres, reader.read(tyre_fields()), table);
        } else if (section.name == "box_axle") {
            add(choosing_.box.axles, reader.read(axle_fields()), table);
        } else if (section.name == "goal") {
            choosing_.goals.push_back(reader.read(goal_fields()));
            check_number(choosing_.goals.size(), table);
        } else if (section.name == "day") {
            choosing_.day = reader.read(day_fields());
        } else if (section.name == "rule") {
            read_rule(reader, table);
        } else {
            choosing_.measured.push_back(reader.read(measured_fields()));
            check_number(choosing_.measured.size(), table);
        }
    }

    template <class Kind>
    void add(std::vector<Kind>& kinds, Kind kind, const TableNode& table) const {
        if (std::any_of(kinds.begin(), kinds.end(),
                        [&](const Kind& other) { return other.name == kind.name; }))
            fail_at(name_, table.find("name")->value.place,
                    table.name + ".name is \"" + shown(kind.name) +
                        "\" a second time; give another, or raise the count of the first");
        kinds.push_back(std::move(kind));
        check_number(kinds.size(), table);
    }

    void check_number(std::size_t count, const TableNode& table) const {
        if (count > most_rows)
            fail_at(name_, table.place,
                    "there are more than " + std::to_string(most_rows) + " [[" + table.name +
                        "]]; remove this one or another");
    }

    void read_rule(const TableReader& reader, const TableNode& table) {
        const EventRule rule = reader.read(rule_fields());
        if (!rule.low && !rule.high)
            fail_at(name_, table.place, "[[rule]] limits nothing; add low = ... or high = ...");
        if (rule.low && rule.high && *rule.low > *rule.high)
            fail_at(name_, table.find("low")->value.place,
                    "rule.low must not be more than rule.high");
        choosing_.rules.push_back(rule);
        check_number(choosing_.rules.size(), table);
    }

    /// A tyre that is glued to a wheel names a kind that there is.
    void check_glue() const {
        std::vector<std::string> names;
        for (const WheelKind& wheel : choosing_.box.wheels) names.push_back(wheel.name);
        for (const TableNode& table : document_.tables) {
            const Entry* entry = table.name == "box_tyre" ? table.find("wheel") : nullptr;
            if (entry && std::find(names.begin(), names.end(), entry->value.text) == names.end())
                fail_at(name_, entry->value.place,
                        "box_tyre.wheel is \"" + shown(entry->value.text) +
                            "\", which is the name of no [[box_wheel]]" +
                            did_you_mean(entry->value.text, names));
        }
    }

    const Document& document_;
    std::string_view name_;
    Choosing choosing_;
};

/// A box or rules from a file of their own, in which nothing else may stand.
Choosing read_part_file(const std::filesystem::path& path, bool box) {
    const std::string text = read_file(path, largest_file);
    const std::string name = path.string();
    const Document document = read_document(without_mark(text), name);
    const auto allowed = [&](const std::string& table) {
        return box ? table.rfind(box_key, 0) == 0 && find_section(table) : table == "rule";
    };
    const std::string right =
        box ? "[box], [[box_wheel]], [[box_tyre]] and [[box_axle]]" : "[[rule]]";
    for (const Entry& entry : document.top)
        if (!allowed(entry.name) || entry.value.kind != NodeKind::list)
            fail_at(
                name, entry.place,
                "\"" + shown(entry.name) + "\" has no place in this file; it may hold " + right);
    for (const TableNode& table : document.tables)
        if (!allowed(table.name))
            fail_at(
                name, table.place,
                "\"" + shown(table.name) + "\" has no place in this file; it may hold " + right);
    return Reader(document, name).read();
}

}  // namespace

bool is_choosing_name(std::string_view name) {
    return name == rules_key || find_section(name) != nullptr;
}

std::vector<std::string> choosing_table_names() {
    std::vector<std::string> names;
    for (const Section& section : choosing_sections()) names.push_back(section.name);
    return names;
}

Choosing read_choosing(const Document& document, std::string_view name) {
    return Reader(document, name).read();
}

void find_choosing_files(Choosing& choosing, const Document& document,
                         const std::filesystem::path& path) {
    choosing.folder = scene_folder(path).string();
    const auto find = [&](const char* key, const std::string& file, bool box) -> Choosing {
        const std::filesystem::path there = (scene_folder(path) / file).lexically_normal();
        std::error_code error;
        if (!std::filesystem::is_regular_file(there, error))
            fail_at(path.string(), document.find_top(key)->value.place,
                    there.string() + " is not a file; " + key + " names a file beside the scene");
        return read_part_file(there, box);
    };
    if (!choosing.box_file.empty()) choosing.box = find(box_key, choosing.box_file, true).box;
    if (!choosing.rules_file.empty())
        choosing.rules = find(rules_key, choosing.rules_file, false).rules;
}

Choosing choosing_from(const std::filesystem::path& path, Choosing choosing) {
    for (std::string* file : {&choosing.box_file, &choosing.rules_file}) {
        if (file->empty() || choosing.folder.empty()) continue;
        const std::filesystem::path there =
            (std::filesystem::path(choosing.folder) / *file).lexically_normal();
        std::error_code error;
        if (!std::filesystem::equivalent(there, scene_folder(path) / *file, error))
            *file = there.string();
    }
    return choosing;
}

}  // namespace podwright
