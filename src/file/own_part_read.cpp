#include "file/own_part_read.hpp"

#include <algorithm>
#include <filesystem>

#include "core/look.hpp"
#include "core/parameters.hpp"
#include "core/units.hpp"
#include "file/near.hpp"
#include "file/text_check.hpp"
#include "file/value_read.hpp"
#include "shape/assembly.hpp"

namespace podwright {

namespace {

constexpr std::size_t longest_file = 1000;

const std::vector<std::string>& key_names() {
    static const std::vector<std::string> names = {"part", "file", "scale", "turn", "move", "look"};
    return names;
}

/// The keys of all parts, those of the shims in short.
std::string part_list() {
    std::vector<std::string> keys;
    for (const std::string& key : part_keys()) {
        const std::size_t shim = key.find(".shim.");
        if (shim == std::string::npos || key.substr(shim) == ".shim.1")
            keys.push_back(key);
        else if (keys.back().substr(0, shim + 6) == key.substr(0, shim + 6))
            keys.back() = key.substr(0, shim) + ".shim.1 to " + key;
    }
    return listed(keys, "or");
}

const NumberRule scale_rule{1e-6, 1e6, "", false, false, {}};
const NumberRule turn_rule{-360, 360, "deg", false, false, {}};
const NumberRule move_rule{-500, 500, "mm", false, true, {}};

class OwnPartReader {
public:
    OwnPartReader(const TableNode& table, std::string_view name) : table_(table), name_(name) {}

    OwnPart read(std::span<const OwnPart> before) {
        if (before.size() >= most_own_parts)
            fail_at(name_, table_.place,
                    "there are more than " + std::to_string(most_own_parts) +
                        " [[own_part]]; remove this one or another");
        for (const Entry& entry : table_.entries) read_entry(entry, before);
        if (!table_.find("part")) missing("part", "left.hub");
        if (!table_.find("file")) missing("file", "my-hub.glb");
        return own_;
    }

private:
    void read_entry(const Entry& entry, std::span<const OwnPart> before) {
        const Node& value = entry.value;
        if (entry.name == "part")
            read_part(value, before);
        else if (entry.name == "file")
            read_file_name(value);
        else if (entry.name == "scale")
            own_.scale = read_number(value, scale_rule, "own_part.scale", name_);
        else if (entry.name == "turn")
            own_.turn = three(entry.name, value, turn_rule, "three angles such as [0, 0, 90]");
        else if (entry.name == "move")
            own_.move = three(entry.name, value, move_rule, "three lengths such as [0, 0, 1.5]");
        else if (entry.name == "look")
            read_look(value);
        else
            fail_at(name_, entry.place,
                    unknown_key(entry.name, "in [[own_part]]", key_names(),
                                "; the keys are " + listed(key_names(), "and")));
        if (entry.name == "turn")
            for (double& angle : own_.turn) angle = radians(angle);
    }

    [[noreturn]] void missing(const std::string& key, const std::string& example) const {
        fail_at(
            name_, table_.place,
            "[[own_part]] lacks " + key + "; add " + key + " = \"" + example + "\", for example");
    }

    [[noreturn]] void wrong_kind(const std::string& key, const Node& node,
                                 const std::string& wanted) const {
        fail_at(name_, node.place,
                "own_part." + key + " is " + std::string(kind_word(node.kind)) + "; it must be " +
                    wanted);
    }

    [[noreturn]] void wrong(const std::string& key, const Node& node,
                            const std::string& what) const {
        fail_at(name_, node.place, "own_part." + key + " is \"" + shown(node.text) + "\"" + what);
    }

    void read_part(const Node& node, std::span<const OwnPart> before) {
        if (node.kind != NodeKind::text)
            wrong_kind("part", node, "the key of a part in quotes, such as \"left.hub\"");
        const std::vector<std::string>& keys = part_keys();
        if (std::find(keys.begin(), keys.end(), node.text) == keys.end()) {
            const std::string hint = did_you_mean(node.text, keys);
            wrong("part", node,
                  hint.empty() ? "; it must be " + part_list() : ", which is no part" + hint);
        }
        if (std::any_of(before.begin(), before.end(),
                        [&](const OwnPart& own) { return own.part == node.text; }))
            wrong("part", node, " a second time; keep only one");
        own_.part = node.text;
    }

    void read_file_name(const Node& node) {
        const std::string wanted = "a .glb or .gltf file such as \"my-hub.glb\"";
        if (node.kind != NodeKind::text) wrong_kind("file", node, wanted);
        const bool plain = is_plain(node.text);
        if (!plain) wrong("file", node, " with a character that no name has; it must be " + wanted);
        if (node.text.size() > longest_file)
            wrong("file", node,
                  "; it must be a path of at most " + std::to_string(longest_file) + " bytes");
        std::string ending = std::filesystem::path(node.text).extension().string();
        std::transform(ending.begin(), ending.end(), ending.begin(),
                       [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
        if (ending != ".glb" && ending != ".gltf") wrong("file", node, "; it must be " + wanted);
        own_.file = node.text;
    }

    void read_look(const Node& node) {
        const std::vector<std::string> names(look_names().begin(), look_names().end());
        if (node.kind != NodeKind::text)
            wrong_kind("look", node, "one of the texts " + listed(names, "or") + ", in quotes");
        own_.look = find_look(node.text);
        if (!own_.look)
            wrong("look", node,
                  "; it must be " + listed(names, "or") + did_you_mean(node.text, names));
    }

    std::array<double, 3> three(const std::string& key, const Node& node, const NumberRule& rule,
                                const std::string& example) const {
        const std::string wanted = "a list of " + example + ", each " + range_text(rule);
        if (node.kind != NodeKind::list) wrong_kind(key, node, wanted);
        std::array<double, 3> values{};
        if (node.items.size() != values.size())
            fail_at(name_, node.place,
                    "own_part." + key + " has " + std::to_string(node.items.size()) + " element" +
                        (node.items.size() == 1 ? "" : "s") + "; it must be " + wanted);
        for (std::size_t i = 0; i < values.size(); ++i)
            values[i] = read_number(node.items[i], rule, element_name("own_part." + key, i), name_);
        return values;
    }

    const TableNode& table_;
    std::string_view name_;
    OwnPart own_;
};

}  // namespace

OwnPart read_own_part(const TableNode& table, std::span<const OwnPart> before,
                      std::string_view name) {
    return OwnPartReader(table, name).read(before);
}

std::string own_part_key_rows() {
    struct Row {
        std::string key, meaning, usual, range;
    };
    const auto three = [](const NumberRule& rule) { return "three, each " + range_text(rule); };
    const std::vector<std::string> looks(look_names().begin(), look_names().end());
    std::string text;
    for (const Row& row : std::vector<Row>{
             {"part", "Key of the part that the mesh stands for.", "required", "key of a part"},
             {"file", "The mesh, beside the scene.", "required", "name of a .glb or .gltf file"},
             {"scale", "Its unit of length in metres.", "`1`", range_text(scale_rule)},
             {"turn", "First about the part's x, then y, then z.", "`[0, 0, 0]`", three(turn_rule)},
             {"move", "In the part's frame.", "`[0, 0, 0]`", three(move_rule)},
             {"look", "What it looks like.", "as the part does", listed(looks, "or")}})
        text += "| `[[own_part]]` | `" + row.key + "` | " + row.meaning + " | " + row.usual +
                " | " + row.range + " |\n";
    return text;
}

std::vector<const TableNode*> own_part_tables(const Document& document) {
    std::vector<const TableNode*> tables;
    for (const TableNode& table : document.tables)
        if (table.listed && table.name == own_part_table) tables.push_back(&table);
    return tables;
}

}  // namespace podwright
