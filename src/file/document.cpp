#include "file/document.hpp"

#include <toml++/toml.h>
#include <algorithm>
#include <cstdint>

#include "file/scene.hpp"
#include "file/text_check.hpp"

namespace podwright {

namespace {

/// Turns the parser's line and column into bytes.
class Positions {
public:
    explicit Positions(std::string_view text) : text_(text), lines_{0} {
        for (std::size_t i = 0; i < text.size(); ++i) {
            if (starts_character(text[i])) characters_.push_back(static_cast<std::uint32_t>(i));
            if (text[i] == '\n') lines_.push_back(characters_.size());
        }
    }

    std::size_t offset(const toml::source_position& at) const {
        const std::size_t line = std::clamp<std::size_t>(at.line, 1, lines_.size()) - 1;
        const std::size_t character = lines_[line] + std::max(at.column, 1U) - 1;
        return character < characters_.size() ? characters_[character] : text_.size();
    }
    Span span(const toml::source_region& region) const {
        return {offset(region.begin), offset(region.end)};
    }
    std::string_view line(toml::source_index number) const {
        const std::size_t begin = offset({number, 1});
        return text_.substr(begin, text_.find('\n', begin) - begin);
    }

private:
    std::string_view text_;
    std::vector<std::uint32_t> characters_;  ///< where each character begins
    std::vector<std::size_t> lines_;         ///< number of the first character of each line
};

Place place(const toml::source_position& at) {
    return {static_cast<int>(at.line), static_cast<int>(at.column)};
}

Node read_node(const toml::node& from, const Positions& positions) {
    Node node;
    node.place = place(from.source().begin);
    node.span = positions.span(from.source());
    if (const auto* text = from.as_string()) {
        node.kind = NodeKind::text;
        node.text = text->get();
    } else if (const auto* list = from.as_array()) {
        node.kind = NodeKind::list;
        for (const toml::node& item : *list) node.items.push_back(read_node(item, positions));
    } else if (from.is_number()) {
        node.number = from.value<double>().value_or(0.0);
        if (const auto* whole = from.as_integer()) node.number = static_cast<double>(whole->get());
    } else if (from.is_boolean()) {
        node.kind = NodeKind::boolean;
    } else {
        node.kind = from.is_table() ? NodeKind::table : NodeKind::moment;
    }
    return node;
}

/// Written as `[[name]]`, not as `name = [{ ... }]`.
bool is_list_of_headers(const toml::node& value) {
    const toml::array* list = value.as_array();
    return list && list->is_array_of_tables() && !list->front().as_table()->is_inline();
}

std::vector<Entry> read_entries(const toml::table& from, const Positions& positions,
                                bool with_tables) {
    std::vector<Entry> entries;
    for (const auto& [key, value] : from) {
        if (!with_tables && (value.is_table() || is_list_of_headers(value))) continue;
        entries.push_back({std::string(key.str()), read_node(value, positions),
                           place(key.source().begin), positions.span(key.source())});
    }
    std::sort(entries.begin(), entries.end(),
              [](const Entry& a, const Entry& b) { return a.span.begin < b.span.begin; });
    return entries;
}

Document read_tables(const toml::table& from, const Positions& positions) {
    Document document;
    document.top = read_entries(from, positions, false);
    const auto add = [&](std::string_view name, const toml::table& table, bool listed) {
        document.tables.push_back({std::string(name), table.is_inline(), listed,
                                   place(table.source().begin), positions.span(table.source()),
                                   read_entries(table, positions, true)});
    };
    for (const auto& [key, value] : from) {
        if (const toml::table* table = value.as_table()) add(key.str(), *table, false);
        const toml::array* list = value.as_array();
        if (!list || !list->is_array_of_tables()) continue;
        for (const toml::node& item : *list) add(key.str(), *item.as_table(), true);
    }
    std::sort(document.tables.begin(), document.tables.end(),
              [](const TableNode& a, const TableNode& b) { return a.span.begin < b.span.begin; });
    return document;
}

const Entry* find_in(const std::vector<Entry>& entries, std::string_view name) {
    const auto found = std::find_if(entries.begin(), entries.end(),
                                    [&](const Entry& entry) { return entry.name == name; });
    return found == entries.end() ? nullptr : &*found;
}

}  // namespace

const Entry* TableNode::find(std::string_view entry) const { return find_in(entries, entry); }

const Entry* Document::find_top(std::string_view name) const { return find_in(top, name); }

const TableNode* Document::find_table(std::string_view name) const {
    const auto found = std::find_if(tables.begin(), tables.end(), [&](const TableNode& table) {
        return !table.listed && table.name == name;
    });
    return found == tables.end() ? nullptr : &*found;
}

const Entry* Document::find(std::string_view key) const {
    const std::size_t dot = key.find('.');
    if (dot == std::string_view::npos) return find_top(key);
    const TableNode* table = find_table(key.substr(0, dot));
    return table ? table->find(key.substr(dot + 1)) : nullptr;
}

Document read_document(std::string_view text, std::string_view name) {
    check_text(text, name);
    if (text.empty()) return {};
    const Positions positions(text);
    try {
        Document document = read_tables(toml::parse(text), positions);
        const auto breaks = std::count(text.begin(), text.end(), '\n');
        document.end = {static_cast<int>(text.back() == '\n' ? breaks : breaks + 1), 1};
        return document;
    } catch (const toml::parse_error& error) {
        const auto at = error.source().begin;
        const SyntaxMistake mistake = plain_syntax_error(
            error.description(), positions.line(at.line), static_cast<int>(at.column));
        fail_at(name, {static_cast<int>(at.line), mistake.column}, mistake.what);
    }
}

}  // namespace podwright
