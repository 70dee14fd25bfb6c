#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

// A TOML text taken apart: what stands where. Knows nothing of setups.
namespace podwright {

/// Line and column as people count them, from 1; columns in characters.
struct Place {
    int line = 1;
    int column = 1;
    bool operator==(const Place&) const = default;
    bool operator<(const Place& other) const {
        return line != other.line ? line < other.line : column < other.column;
    }
};

/// Bytes [begin, end) of the text.
struct Span {
    std::size_t begin = 0;
    std::size_t end = 0;
};

enum class NodeKind { boolean, number, text, list, table, moment };

/// A value. Only the member that belongs to `kind` is set.
struct Node {
    NodeKind kind = NodeKind::number;
    double number = 0;
    std::string text;
    std::vector<Node> items;
    Place place;
    Span span;
};

/// `name = value`; `span` is the name as written, without the table's name before a dot.
struct Entry {
    std::string name;
    Node value;
    Place place;
    Span span;
};

/// `[name]`, `name = { ... }` or the common part of `name.key = ...`; or one of several:
/// `[[name]]`, or an element of `name = [{ ... }]`. Tables inside it are entries with a value of
/// kind table and no content.
struct TableNode {
    std::string name;
    bool inlined = false;  ///< { ... }
    bool listed = false;   ///< one of several
    Place place;
    Span span;                   ///< of the header, or of the braces
    std::vector<Entry> entries;  ///< as they stand in the text

    const Entry* find(std::string_view entry) const;
};

struct Document {
    std::vector<Entry> top;  ///< what stands outside of tables; `name = [{ ... }]` too
    std::vector<TableNode> tables;
    Place end;  ///< of the text

    const Entry* find_top(std::string_view name) const;
    /// The one table of that name; null for one of several.
    const TableNode* find_table(std::string_view name) const;
    /// The entry with a key as in parameters(): "table.name", or "name" at top level.
    const Entry* find(std::string_view key) const;
};

/// Throws FileError at the place of the first mistake of form: not UTF-8 text, not TOML, or nested
/// deeper than a scene can be. `name` stands for the file in messages.
Document read_document(std::string_view text, std::string_view name);

/// One line "NAME:LINE:COLUMN: what", thrown as FileError.
[[noreturn]] void fail_at(std::string_view name, Place place, const std::string& what);

/// "a number", "a list", ...
std::string_view kind_word(NodeKind kind);

/// `text` for a message: on one line, at most 40 characters, control characters shown as `?`.
std::string shown(std::string_view text);

/// What is wrong in a line, and the column where it begins.
struct SyntaxMistake {
    std::string what;
    int column = 1;
};

/// A TOML parser's complaint in plain words with what would be right. `line` is the text of the
/// line, `column` where the parser stopped, which may be behind the mistake.
SyntaxMistake plain_syntax_error(std::string_view complaint, std::string_view line, int column);

}  // namespace podwright
