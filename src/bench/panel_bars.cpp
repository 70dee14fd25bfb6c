#include <algorithm>
#include <string>
#include <vector>

#include "bench/envelope_run.hpp"
#include "bench/file_words.hpp"
#include "bench/panels.hpp"
#include "bench/views.hpp"
#include "core/care.hpp"

namespace podwright {

namespace {

/// A caption over a track, with its play button beside it.
void captioned_track(WindowFrame& frame, const char* caption, const std::string& name,
                     double& value, double low, double high, float width, const char* help) {
    ImGui::BeginGroup();
    ImGui::PushFont(frame.type.caption);
    ImGui::PushStyleColor(ImGuiCol_Text, frame.colours().quiet);
    ImGui::TextUnformatted(caption);
    ImGui::PopStyleColor();
    ImGui::PopFont();
    tip_for_last(frame, help);
    bool done = false;
    track(frame, name, value, low, high, (high - low) / 100, width, done);
    ImGui::EndGroup();
}

void play_beside(WindowFrame& frame, const std::string& key) {
    Model& model = frame.model;
    ImGui::SameLine(0, frame.px(grid::hair));
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImGui::SetCursorScreenPos(
        {at.x, at.y + frame.type.caption->FontSize + ImGui::GetStyle().ItemSpacing.y});
    if (play_button(frame, "play " + key, model.play && model.play->key == key))
        start_play(model, key, frame.now);
}

std::vector<std::string> view_words() {
    std::vector<std::string> words;
    for (const NamedView& view : named_views()) words.emplace_back(view.name);
    return words;
}

void view_choice(WindowFrame& frame, double aspect) {
    Model& model = frame.model;
    const std::vector<std::string> words = view_words();
    int index = -1;
    if (!model.view_moved)
        index = static_cast<int>(std::find(words.begin(), words.end(), model.view) - words.begin());
    if (segments(frame, "view", words, index))
        go_to_view(model, words[static_cast<std::size_t>(index)], aspect, frame.now);
    for (const NamedView& view : named_views())
        if (const std::string id = "view:" + std::string(view.name); frame.is_over(id))
            ImGui::SetTooltip("%s   %d", std::string(view.help).c_str(), view.key);
}

/// `width` is shared by the four tracks.
void pose_tracks(WindowFrame& frame, double aspect, float width) {
    Model& model = frame.model;
    Pose& pose = model.look.pose;
    const float gap = frame.px(grid::medium);
    const float play = frame.px(20 + grid::hair);
    const float each = std::clamp((width - 3 * gap - 2 * play) / 4, frame.px(56), frame.px(140));
    const ImVec2 start = ImGui::GetCursorScreenPos();
    float x = start.x;
    const auto next = [&](float step) {
        x += step;
        ImGui::SetCursorScreenPos({x, start.y});
    };
    captioned_track(frame, each < frame.px(80) ? "float" : "axle in its float", "pose.along",
                    pose.along, -1, 1, each,
                    "Slides the axle from the right end of its float to the left end   Space");
    play_beside(frame, "pose.along");
    next(each + play + gap);
    const double envelope = model.envelope;
    captioned_track(frame, "envelope", "envelope", model.envelope, 0, 1, each,
                    "Runs through the envelope: float, turn, worn tyres, roll to either side");
    if (model.envelope != envelope) show_envelope(model);
    play_beside(frame, "envelope");
    next(each + play + gap);
    const double spread = pose.spread;
    captioned_track(frame, "exploded", "pose.spread", pose.spread, 0, 1, each,
                    "Pulls the parts apart along the axle   X");
    if (pose.spread != spread) keep_view(model, aspect);
    next(each + gap);
    captioned_track(frame, "cutaway", "cutaway", model.cutaway, 0, 1, each,
                    "Takes the front half away, back to the middle of the axle   C");
}

void save_buttons(WindowFrame& frame, FileDialog& files) {
    Model& model = frame.model;
    if (icon_button(frame, "open", Icon::open, "Open a scene   Ctrl O")) files.ask_open(model);
    ImGui::SameLine(0, 0);
    const bool unsaved = !model.history.is_saved() || model.is_demo;
    if (icon_button(frame, "save", Icon::save, "Save   Ctrl S", unsaved))
        files.save(model, frame.now);
    ImGui::SameLine(0, 0);
    if (icon_button(frame, "save as", Icon::save_as, "Save under another name   Ctrl Shift S"))
        files.ask_save_as(model);
}

void undo_buttons(WindowFrame& frame) {
    Model& model = frame.model;
    const bool can_undo = model.history.can_undo();
    if (icon_button(frame, "undo", Icon::undo,
                    can_undo ? "Take back: " + model.history.undo_name() + "   Ctrl Z"
                             : "Nothing to take back   Ctrl Z",
                    can_undo))
        undo(model);
    ImGui::SameLine(0, 0);
    const bool can_redo = model.history.can_redo();
    if (icon_button(frame, "redo", Icon::redo,
                    can_redo ? "Do again: " + model.history.redo_name() + "   Ctrl Y"
                             : "Nothing to do again   Ctrl Y",
                    can_redo))
        redo(model);
}

void title_words(WindowFrame& frame, float width) {
    const Model& model = frame.model;
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const bool unsaved = !model.history.is_saved();
    ImFont* strong = frame.type.strong;
    ImFont* caption = frame.type.caption;
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const std::string title = shortened(*strong, model.setup.title, width);
    list.AddText(strong, strong->FontSize, at, frame.colours().ink, title.c_str());
    const float y = at.y + strong->FontSize + frame.px(1);
    if (unsaved)
        list.AddCircleFilled({at.x + frame.px(4), y + caption->FontSize / 2 + frame.px(1)},
                             frame.px(3.5F), frame.colours().accent);
    const float mark = unsaved ? frame.px(12) : 0;
    list.AddText(caption, caption->FontSize, {at.x + mark, y}, frame.colours().quiet,
                 shortened(*caption, file_words(model), width - mark).c_str());
    ImGui::Dummy({width, strong->FontSize + caption->FontSize});
    const std::string& note = model.setup.note;
    tip_for_last(frame, plain(model.path) + (note.empty() ? "" : "\n\n" + note));
}

}  // namespace

void top_bar(WindowFrame& frame, FileDialog& files) {
    Model& model = frame.model;
    const float icons = 7 * frame.px(grid::icon_button);
    const float units = segments_width(frame, {"mm", "in"});
    const float gaps = 3 * frame.px(grid::medium);
    const float edge = ImGui::GetWindowWidth() - frame.px(grid::large);
    const float start = edge - icons - units - gaps;
    const float top = frame.px((grid::top_bar - grid::icon_button) / 2);
    ImGui::SetCursorPos({frame.px(grid::large), frame.px(7)});
    title_words(frame, start - frame.px(2 * grid::large));
    ImGui::SetCursorPos({start, top});
    save_buttons(frame, files);
    ImGui::SameLine(0, frame.px(grid::medium));
    undo_buttons(frame);
    ImGui::SameLine(0, frame.px(grid::medium));
    const ImVec2 at = ImGui::GetCursorPos();
    ImGui::SetCursorPos({at.x, frame.px((grid::top_bar - grid::control) / 2)});
    int unit = model.shown == LengthUnit::mm ? 0 : 1;
    if (segments(frame, "unit", {"mm", "in"}, unit))
        set_unit(model, unit == 0 ? LengthUnit::mm : LengthUnit::inch);
    ImGui::SetCursorPos({at.x + units + frame.px(grid::medium), top});
    if (icon_button(frame, "dark", model.dark ? Icon::sun : Icon::moon,
                    model.dark ? "Light   N" : "Dark   N"))
        model.dark = !model.dark;
    ImGui::SameLine(0, 0);
    if (icon_button(frame, "help", Icon::help, "All keys   H", true, model.help))
        model.help = !model.help;
}

void view_bar(WindowFrame& frame, double aspect) {
    const ImVec2 size = ImGui::GetWindowSize();
    const float margin = frame.px(grid::large);
    ImGui::SetCursorPos({margin, (size.y - frame.px(grid::control)) / 2});
    view_choice(frame, aspect);
    const float after = margin + segments_width(frame, view_words()) + frame.px(grid::wide);
    ImGui::SetCursorPos({after, frame.px(grid::medium)});
    pose_tracks(frame, aspect, size.x - margin - after);
}

void tool_strip(WindowFrame& frame) {
    Model& model = frame.model;
    const float pad = frame.px((grid::tool_strip - grid::icon_button) / 2);
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, {0, frame.px(2)});
    ImGui::SetCursorPos({pad, pad});
    ImGui::BeginGroup();
    icon_switch(frame, "labels", Icon::dimensions, "Dimensions   D", model.labels);
    icon_switch(frame, "loupe", Icon::loupe, "The loupe   L", model.loupe);
    icon_switch(frame, "room", Icon::room, "Clearances drawn on the model   M", model.room);
    icon_switch(frame, "heat", Icon::heat, "Parts in the colour of their clearance   K",
                model.heat);
    ImGui::Dummy({0, frame.px(grid::small)});
    if (icon_button(frame, "ghost", Icon::ghost,
                    "A ghost of the setup before, and what changed since   G", true,
                    model.ghost.of != Ghost::Of::nothing))
        toggle_ghost(model);
    const bool isolated = is_isolated(model);
    if (icon_button(frame, "isolate", Icon::isolate,
                    isolated                    ? "Everything again   I"
                    : model.look.picked.empty() ? "Pick a part to see it alone   I"
                                                : "The picked part alone   I",
                    isolated || !model.look.picked.empty(), isolated))
        isolate(model, model.look.picked);
    ImGui::EndGroup();
    ImGui::PopStyleVar();
}

void help_sheet(WindowFrame& frame) {
    if (!frame.model.help) return;
    struct Line {
        const char* key;
        const char* what;
    };
    static constexpr Line lines[] = {
        {"drag", "turn the bench"},
        {"right drag, or Shift and drag", "move it"},
        {"wheel", "come closer, go back"},
        {"Ctrl and arrows, + or -", "turn, come closer or go back; with Shift, move"},
        {"click a part, or , and .", "pick it, the one before, the next; its numbers are named"},
        {"F", "frame the picked part, or everything"},
        {"1 to 8", "axle, left, right, rear, top, mesh, float, section"},
        {"Space", "slide the axle through its float"},
        {"R, O", "turn the axle once; go round the bench once"},
        {"G", "a ghost of the setup before, and what changed since"},
        {"I, S, W", "the picked part alone, see-through, whole in the cut"},
        {"+ and - over an adjuster", "one step more, one step less"},
        {"click a value", "type another one: 4.5, 4,5 or 0.18 in"},
        {"D, L, X, C", "dimensions, loupe, exploded view, cutaway"},
        {"B, P", "the axle bent, with moment and torque, case by case; let go and load again"},
        {"E", "what the axle feels: cases, builds, another axle; and back to the findings"},
        {"tabs at the right", "builds from the parts box, the day, checks, what adjusters do"},
        {"M, K", "clearances on the model, or as colour"},
        {"N", "light or dark"},
        {"Tab", "hide or show the panels"},
        {"Ctrl Z, Ctrl Y", "undo, redo"},
        {"Ctrl O, Ctrl S, Ctrl Shift S", "open, save, save as"},
        {"Ctrl Q", "close"},
        {"Esc", "let go of what is picked; at a question, stay"},
        {"H", "this sheet"},
    };
    const ImVec2 middle = ImGui::GetMainViewport()->GetCenter();
    ImGui::SetNextWindowPos(middle, ImGuiCond_Always, {0.5F, 0.5F});
    ImGui::SetNextWindowSizeConstraints({frame.px(600), 0}, {frame.px(600), 1e6F});
    ImGui::Begin("Keys and mouse", &frame.model.help,
                 ImGuiWindowFlags_AlwaysAutoResize | ImGuiWindowFlags_NoCollapse |
                     ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings);
    wrapped(frame.type.text, frame.colours().ink,
            "Drag an adjuster on the left: the model, the dimensions and the readings follow.");
    wrapped(frame.type.text, frame.colours().ink,
            "Findings on the right say what is wrong and what mends it.");
    wrapped(frame.type.small, frame.colours().quiet, usual_care());
    ImGui::Dummy({0, frame.px(grid::hair)});
    if (ImGui::BeginTable("keys", 2)) {
        ImGui::TableSetupColumn("key", ImGuiTableColumnFlags_WidthFixed, frame.px(230));
        ImGui::TableSetupColumn("what", ImGuiTableColumnFlags_WidthStretch);
        for (const Line& line : lines) {
            ImGui::TableNextColumn();
            wrapped(frame.type.strong, frame.colours().ink, line.key);
            ImGui::TableNextColumn();
            wrapped(frame.type.text, frame.colours().quiet, line.what);
        }
        ImGui::EndTable();
    }
    ImGui::End();
}

}  // namespace podwright
