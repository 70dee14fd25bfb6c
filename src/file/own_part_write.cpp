#include "file/own_part_write.hpp"

#include <algorithm>
#include <optional>

#include "core/look.hpp"
#include "file/own_part_read.hpp"
#include "file/text_lines.hpp"
#include "file/value_text.hpp"

namespace podwright {

namespace {

/// `key = value`; without a value the key is left out, for what it means by that.
struct Written {
    const char* key;
    std::optional<std::string> value;
    std::vector<std::string> elements;  ///< of a list
};

Written written_list(const char* key, std::vector<std::string> elements) {
    Written written{key, {}, std::move(elements)};
    if (std::any_of(written.elements.begin(), written.elements.end(),
                    [](const std::string& text) { return text != "0"; })) {
        std::string text;
        for (const std::string& element : written.elements)
            text += (text.empty() ? "[" : ", ") + element;
        written.value = text + "]";
    }
    return written;
}

std::vector<Written> written(const OwnPart& own) {
    std::vector<std::string> turn, move;
    for (const double angle : own.turn) turn.push_back(degrees_text(angle));
    for (const double length : own.move) move.push_back(number_text(length));
    std::vector<Written> keys;
    keys.push_back({"part", quoted_text(own.part), {}});
    keys.push_back({"file", quoted_text(own.file), {}});
    keys.push_back({"scale", {}, {}});
    if (own.scale != 1) keys.back().value = number_text(own.scale);
    keys.push_back(written_list("turn", std::move(turn)));
    keys.push_back(written_list("move", std::move(move)));
    keys.push_back({"look", {}, {}});
    if (own.look) keys.back().value = quoted_text(look_name(*own.look));
    return keys;
}

std::string assignment(const Written& written) {
    return std::string(written.key) + " = " + *written.value;
}

std::string inline_text(const std::vector<OwnPart>& own_parts) {
    std::string list;
    for (const OwnPart& own : own_parts) {
        std::string table;
        for (const Written& key : written(own))
            if (key.value) table += (table.empty() ? "{ " : ", ") + assignment(key);
        list += (list.empty() ? "[" : ", ") + table + " }";
    }
    return list.empty() ? "[]" : list + "]";
}

bool alike(const OwnPart& a, const OwnPart& b) {
    return a.part == b.part && a.file == b.file && a.scale == b.scale && a.turn == b.turn &&
           a.move == b.move && a.look == b.look;
}

bool same_keys(const std::vector<OwnPart>& a, const std::vector<OwnPart>& b, std::size_t count) {
    return std::equal(a.begin(), a.begin() + static_cast<std::ptrdiff_t>(count), b.begin(),
                      [](const OwnPart& x, const OwnPart& y) { return x.part == y.part; });
}

/// Edits tables that stand under headers.
class TableEditor {
public:
    TableEditor(std::string_view text, std::vector<const TableNode*> tables, std::string newline)
        : text_(text), tables_(std::move(tables)), newline_(std::move(newline)) {}

    std::vector<Edit> run(const std::vector<OwnPart>& before, const std::vector<OwnPart>& after) {
        std::vector<OwnPart> kept;
        std::vector<const TableNode*> kept_tables;
        for (std::size_t i = 0; i < before.size(); ++i) {
            const bool stays = before.size() <= after.size() ||
                               std::any_of(after.begin(), after.end(), [&](const OwnPart& own) {
                                   return own.part == before[i].part;
                               });
            if (stays) {
                kept.push_back(before[i]);
                kept_tables.push_back(tables_[i]);
            } else {
                remove(*tables_[i]);
            }
        }
        // Of the same number, one by one: a part that was named anew keeps its lines. Otherwise
        // only where new ones follow old ones; all others are written again.
        const bool in_order = kept.size() == after.size() ||
                              (kept.size() < after.size() && same_keys(kept, after, kept.size()));
        if (!in_order) {
            for (const TableNode* table : kept_tables) remove(*table);
            kept.clear();
        }
        for (std::size_t i = 0; i < kept.size(); ++i) edit(*kept_tables[i], kept[i], after[i]);
        append({after.begin() + static_cast<std::ptrdiff_t>(kept.size()), after.end()});
        return std::move(edits_);
    }

private:
    std::size_t end_of(const TableNode& table) const {
        return line_end(text_, table.entries.back().value.span.end);
    }

    void remove(const TableNode& table) {
        edits_.push_back({{line_begin(text_, table.span.begin), end_of(table)}, ""});
    }

    void append(const std::vector<OwnPart>& added) {
        const std::size_t at = tables_.empty() ? text_.size() : end_of(*tables_.back());
        insert(at, own_part_text(added, newline_));
    }

    void insert(std::size_t at, const std::string& lines) {
        if (lines.empty()) return;
        const bool unfinished = at > 0 && text_[at - 1] != '\n';
        edits_.push_back({{at, at}, (unfinished ? newline_ : "") + lines});
    }

    void edit(const TableNode& table, const OwnPart& before, const OwnPart& after) {
        if (alike(before, after)) return;
        const std::vector<Written> old = written(before);
        const std::vector<Written> now = written(after);
        const Entry& last = table.entries.back();
        const std::size_t begin = line_begin(text_, last.span.begin);
        const std::string prefix(text_.substr(begin, last.span.begin - begin));
        std::string lines;
        for (std::size_t k = 0; k < now.size(); ++k) {
            if (now[k].value == old[k].value) continue;
            const Entry* entry = table.find(now[k].key);
            if (!entry && now[k].value)
                lines += prefix + assignment(now[k]) + newline_;
            else if (entry)
                change(*entry, old[k], now[k]);
        }
        insert(end_of(table), lines);
    }

    void change(const Entry& entry, const Written& old, const Written& now) {
        if (!now.elements.empty() && now.elements.size() == entry.value.items.size()) {
            for (std::size_t i = 0; i < now.elements.size(); ++i)
                if (now.elements[i] != old.elements[i])
                    edits_.push_back({entry.value.items[i].span, now.elements[i]});
        } else if (now.value) {
            edits_.push_back({entry.value.span, *now.value});
        } else {
            edits_.push_back(
                {{line_begin(text_, entry.span.begin), line_end(text_, entry.value.span.end)}, ""});
        }
    }

    std::string_view text_;
    std::vector<const TableNode*> tables_;
    std::string newline_;
    std::vector<Edit> edits_;
};

}  // namespace

bool same_own_parts(const std::vector<OwnPart>& a, const std::vector<OwnPart>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), alike);
}

std::string own_part_text(const std::vector<OwnPart>& own_parts, const std::string& newline) {
    std::string text;
    for (const OwnPart& own : own_parts) {
        text += newline + "[[own_part]]" + newline;
        for (const Written& key : written(own))
            if (key.value) text += assignment(key) + newline;
    }
    return text;
}

std::vector<Edit> own_part_edits(std::string_view text, const Document& document,
                                 const std::vector<OwnPart>& before,
                                 const std::vector<OwnPart>& after, const std::string& newline) {
    if (same_own_parts(before, after)) return {};
    // Written as a value, they are written again as one.
    if (const Entry* list = document.find_top(own_part_table))
        return {{list->value.span, inline_text(after)}};
    return TableEditor(text, own_part_tables(document), newline).run(before, after);
}

}  // namespace podwright
