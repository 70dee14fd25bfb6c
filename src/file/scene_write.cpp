#include <algorithm>
#include <filesystem>
#include <string>
#include <system_error>
#include <vector>

#include "core/parameters.hpp"
#include "file/choosing_file.hpp"
#include "file/disk.hpp"
#include "file/document.hpp"
#include "file/own_mesh.hpp"
#include "file/own_part_write.hpp"
#include "file/scene.hpp"
#include "file/scene_complete.hpp"
#include "file/scene_read.hpp"
#include "file/text_lines.hpp"
#include "file/value_text.hpp"

namespace podwright {

namespace {

/// Collects what has to change in the text of a scene to make it describe another setup.
class Editor {
public:
    Editor(std::string_view text, const Document& document, const Setup& before, const Setup& after)
        : text_(text), document_(document), before_(before), after_(after) {
        newline_ = text.find("\r\n") == std::string_view::npos ? "\n" : "\r\n";
    }

    std::string run() {
        edit_tooth_size();
        for (const Parameter& parameter : parameters())
            if (!is_tooth_size(parameter)) edit(parameter);
        for (auto& [table, lines] : added_) insert(table, lines);
        for (Edit& edit :
             own_part_edits(text_, document_, before_.own_parts, after_.own_parts, newline_))
            edits_.push_back(std::move(edit));
        for (Edit& edit :
             choosing_edits(text_, document_, before_.choosing, after_.choosing, newline_))
            edits_.push_back(std::move(edit));
        return applied();
    }

private:
    void edit_tooth_size() {
        const Parameter& pitch = *find_parameter("gears.diametral_pitch");
        const Parameter& module = *find_parameter("gears.module");
        const bool by_pitch = after_.gears.by_diametral_pitch;
        const Parameter& wanted = by_pitch ? pitch : module;
        const Entry* there = document_.find(wanted.key);
        if (!there) {
            // Renamed where it stands, so that its line keeps its place.
            there = document_.find(by_pitch ? module.key : pitch.key);
            edits_.push_back({there->span, name_of(wanted.key)});
        } else if (after_.gears.module == before_.gears.module) {
            return;
        }
        edits_.push_back({there->value.span, value_text(wanted, after_)});
    }

    void edit(const Parameter& parameter) {
        const Entry* entry = document_.find(parameter.key);
        if (!is_present(parameter, after_)) {
            if (entry) remove(parameter, *entry);
        } else if (!entry) {
            if (is_needed(parameter, after_) || !same_value(parameter, implied(), after_))
                added_to(table_of(parameter.key)).push_back(&parameter);
        } else if (!same_value(parameter, before_, after_)) {
            if (!edit_list(parameter, *entry))
                edits_.push_back({entry->value.span, value_text(parameter, after_)});
        }
    }

    /// What a scene with these gears means by leaving everything else out.
    Setup implied() const {
        Setup setup = default_setup();
        setup.gears.dedendum = usual_dedendum(after_.gears);
        return setup;
    }

    /// Changes single elements of a list of the same length; false if that is not the case.
    bool edit_list(const Parameter& parameter, const Entry& entry) {
        if (parameter.kind != ValueKind::list) return false;
        const std::vector<double>& list = parameter.get_list(after_);
        const std::vector<double>& old = parameter.get_list(before_);
        if (list.size() != entry.value.items.size() || list.size() != old.size()) return false;
        for (std::size_t i = 0; i < list.size(); ++i)
            if (list[i] != old[i])
                edits_.push_back({entry.value.items[i].span, number_text(list[i])});
        return true;
    }

    void remove(const Parameter& parameter, const Entry& entry) {
        const TableNode* table = document_.find_table(table_of(parameter.key));
        if (!table || !table->inlined) {
            const std::size_t begin = line_begin(text_, entry.span.begin);
            edits_.push_back({{begin, line_end(text_, entry.value.span.end)}, ""});
            return;
        }
        const auto at = static_cast<std::size_t>(&entry - table->entries.data());
        Span span{entry.span.begin, entry.value.span.end};
        if (at + 1 < table->entries.size())
            span.end = table->entries[at + 1].span.begin;
        else if (at > 0)
            span.begin = table->entries[at - 1].value.span.end;
        edits_.push_back({span, ""});
    }

    /// Where keys outside of tables go if there are none yet: below the comment that opens the
    /// file, as long as an empty line parts it from what follows.
    std::size_t top() const {
        std::size_t at = 0;
        while (at < text_.size() && text_[at] == '#') at = line_end(text_, at);
        const bool parted = at < text_.size() && (text_[at] == '\n' || text_[at] == '\r');
        return parted ? line_end(text_, at) : 0;
    }

    using Added = std::pair<std::string, std::vector<const Parameter*>>;

    std::vector<const Parameter*>& added_to(const std::string& table) {
        for (auto& [name, keys] : added_)
            if (name == table) return keys;
        return added_.emplace_back(table, std::vector<const Parameter*>{}).second;
    }

    std::string assignment(const Parameter& parameter) const {
        return name_of(parameter.key) + " = " + value_text(parameter, after_);
    }

    void insert(const std::string& name, const std::vector<const Parameter*>& keys) {
        const TableNode* table = document_.find_table(name);
        const std::vector<Entry>* entries = table ? &table->entries : nullptr;
        if (name.empty()) entries = &document_.top;
        if (table && table->inlined) return insert_inline(*table, keys);

        std::size_t at = 0;
        std::string prefix;
        std::string lines;
        if (entries && !entries->empty()) {
            const Entry& last = entries->back();
            const std::size_t begin = line_begin(text_, last.span.begin);
            prefix = text_.substr(begin, last.span.begin - begin);
            at = line_end(text_, last.value.span.end);
        } else if (table) {
            at = line_end(text_, table->span.end);
        } else if (!name.empty()) {
            at = text_.size();
            lines = newline_ + "[" + name + "]" + newline_;
        } else {
            at = top();
        }
        for (const Parameter* key : keys) lines += prefix + assignment(*key) + newline_;
        const bool unfinished = at > 0 && text_[at - 1] != '\n';
        edits_.push_back({{at, at}, (unfinished ? newline_ : "") + lines});
    }

    void insert_inline(const TableNode& table, const std::vector<const Parameter*>& keys) {
        std::string text;
        for (const Parameter* key : keys)
            text += (table.entries.empty() && text.empty() ? " " : ", ") + assignment(*key);
        const std::size_t at =
            table.entries.empty() ? table.span.begin + 1 : table.entries.back().value.span.end;
        edits_.push_back({{at, at}, text});
    }

    std::string applied() {
        // Kept in order where several stand at the same place: tables added at the end.
        std::stable_sort(edits_.begin(), edits_.end(),
                         [](const Edit& a, const Edit& b) { return a.span.begin < b.span.begin; });
        std::string result;
        std::size_t from = 0;
        for (const Edit& edit : edits_) {
            result += text_.substr(from, std::max(edit.span.begin, from) - from);
            result += edit.text;
            from = std::max(from, edit.span.end);
        }
        return result += text_.substr(from);
    }

    std::string_view text_;
    const Document& document_;
    const Setup& before_;
    const Setup& after_;
    std::string newline_;
    std::vector<Edit> edits_;
    std::vector<Added> added_;
};

bool same_setup(const Setup& a, const Setup& b) {
    return a.gears.by_diametral_pitch == b.gears.by_diametral_pitch &&
           same_own_parts(a.own_parts, b.own_parts) && same_choosing(a.choosing, b.choosing) &&
           std::all_of(parameters().begin(), parameters().end(),
                       [&](const Parameter& parameter) { return same_value(parameter, a, b); });
}

/// `original` edited to describe `setup`. Throws FileError if it is not the text of a scene.
std::string edited_scene(const Setup& setup, std::string_view original, std::string_view name) {
    const std::string_view text = without_mark(original);
    const Document document = read_document(text, name);
    const Setup before = read_setup(document, name);
    std::string edited = std::string(original.substr(0, original.size() - text.size())) +
                         Editor(text, document, before, setup).run();
    try {
        const Document again = read_document(without_mark(edited), name);
        if (same_setup(read_setup(again, name), setup)) return edited;
    } catch (const FileError&) {
        // Some form of TOML that the editor does not know; the values matter more than the
        // comments.
    }
    return complete_scene(setup);
}

/// The text of the file that is there and must be kept; empty if there is none.
std::string text_there(const std::filesystem::path& path) {
    std::error_code error;
    const auto status = std::filesystem::status(path, error);
    if (!std::filesystem::is_regular_file(status)) return {};
    return read_file(path, largest_scene);
}

/// The text for a scene that goes back to its own file. Throws FileError if what is there is none.
std::string text_in_place(const Setup& setup, const std::filesystem::path& path) {
    const std::string old = text_there(path);
    if (without_mark(old).empty()) return complete_scene(setup);
    try {
        return edited_scene(setup, old, path.string());
    } catch (const FileError& error) {
        throw FileError(std::string(error.what()) +
                        "; the file was not changed: mend this line or save under another name");
    }
}

/// The text for a scene that goes to another file than `from`. To save elsewhere is the way out
/// when its own file was broken, so nothing there is in the way.
std::string text_elsewhere(const Setup& setup, const std::filesystem::path& from) {
    try {
        return scene_text(setup, text_there(from));
    } catch (const FileError&) {
        return complete_scene(setup);
    }
}

}  // namespace

std::string scene_text(const Setup& setup, std::string_view original) {
    if (without_mark(original).empty()) return complete_scene(setup);
    try {
        return edited_scene(setup, original, "scene");
    } catch (const FileError&) {
        return complete_scene(setup);
    }
}

void save_scene(const Setup& setup, const std::filesystem::path& path) {
    save_scene(setup, path, path);
}

void save_scene(const Setup& setup, const std::filesystem::path& path,
                const std::filesystem::path& from) {
    Setup written = setup;
    written.own_parts = own_parts_from(path, setup.own_parts);
    written.choosing = choosing_from(path, setup.choosing);
    const std::string text =
        is_same_file(path, from) ? text_in_place(written, path) : text_elsewhere(written, from);
    try {
        parse_scene(text, "");
    } catch (const FileError& error) {
        std::string reason = error.what();
        reason.erase(0, reason.find(' ') + 1);
        throw FileError(path.string() + ": not saved: " + reason);
    }
    write_file(path, text);
}

}  // namespace podwright
