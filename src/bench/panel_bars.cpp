#include <algorithm>

#include "bench/panels.hpp"
#include "bench/views.hpp"

namespace podwright {

namespace {

void captioned_track(WindowFrame& frame, const char* caption, const std::string& name,
                     double& value, double low, double high, const char* help) {
    ImGui::BeginGroup();
    ImGui::PushFont(frame.type.small);
    ImGui::TextUnformatted(caption);
    ImGui::PopFont();
    if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s", help);
    bool done = false;
    track(frame, name, value, low, high, (high - low) / 100, frame.px(78), done);
    ImGui::EndGroup();
}

void switch_box(WindowFrame& frame, const char* words, const std::string& name, bool& on) {
    ImGui::Checkbox(words, &on);
    frame.note_place(name, ImGui::GetItemRectMin(), ImGui::GetItemRectMax());
}

void view_words(WindowFrame& frame, double aspect) {
    Model& model = frame.model;
    std::vector<std::string> words;
    int index = -1;
    for (const NamedView& view : named_views()) {
        if (view.name == model.view && !model.view_moved) index = static_cast<int>(words.size());
        words.emplace_back(view.name);
    }
    if (!segments(frame, "view", words, index)) return;
    go_to_view(model, words[static_cast<std::size_t>(index)], aspect, frame.now);
}

void play_beside(WindowFrame& frame, const std::string& key) {
    Model& model = frame.model;
    ImGui::SameLine(0, frame.px(4));
    ImGui::BeginGroup();
    ImGui::Dummy({1, ImGui::GetTextLineHeight() - frame.px(4)});
    if (play_button(frame, "play " + key, model.play && model.play->key == key))
        start_play(model, key, frame.now);
    ImGui::EndGroup();
}

void pose_tracks(WindowFrame& frame, double aspect) {
    Model& model = frame.model;
    Pose& pose = model.look.pose;
    captioned_track(frame, "axle in its float", "pose.along", pose.along, -1, 1,
                    "Slides the axle from the right end of its float to the left end");
    play_beside(frame, "pose.along");
    ImGui::SameLine(0, frame.px(14));
    const double envelope = model.envelope;
    captioned_track(frame, "all that happens", "envelope", model.envelope, 0, 1,
                    "Runs through the envelope: float, turn, worn tyres, roll to either side");
    if (model.envelope != envelope) show_envelope(model);
    play_beside(frame, "envelope");
    ImGui::SameLine(0, frame.px(14));
    const double spread = pose.spread;
    captioned_track(frame, "exploded", "pose.spread", pose.spread, 0, 1,
                    "Pulls the parts apart along the axle");
    if (pose.spread != spread) keep_view(model, aspect);
    ImGui::SameLine(0, frame.px(14));
    captioned_track(frame, "cutaway", "cutaway", model.cutaway, 0, 1,
                    "Takes the front half away, back to the middle of the axle");
}

}  // namespace

void top_bar(WindowFrame& frame, FileDialog& files) {
    Model& model = frame.model;
    ImGui::AlignTextToFramePadding();
    ImGui::PushFont(frame.type.strong);
    const bool unsaved = !model.history.is_saved();
    ImGui::TextUnformatted((model.setup.title + (unsaved ? "  (changed)" : "")).c_str());
    ImGui::PopFont();
    if (ImGui::IsItemHovered() && !model.setup.note.empty())
        ImGui::SetTooltip("%s", model.setup.note.c_str());
    const float buttons = frame.px(492);
    ImGui::SameLine(std::max(ImGui::GetCursorPosX(), ImGui::GetWindowWidth() - buttons));
    if (button(frame, "open", "Open")) files.ask_open(model);
    ImGui::SameLine(0, frame.px(4));
    if (button(frame, "save", "Save", unsaved || model.is_demo)) {
        if (model.path.empty() || model.is_demo)
            files.ask_save_as(model);
        else
            save_scene_as(model, model.path, frame.now);
    }
    ImGui::SameLine(0, frame.px(4));
    if (button(frame, "save as", "Save as")) files.ask_save_as(model);
    ImGui::SameLine(0, frame.px(16));
    if (button(frame, "undo", "Undo", model.history.can_undo())) undo(model);
    if (ImGui::IsItemHovered() && model.history.can_undo())
        ImGui::SetTooltip("Take back: %s", model.history.undo_name().c_str());
    ImGui::SameLine(0, frame.px(4));
    if (button(frame, "redo", "Redo", model.history.can_redo())) redo(model);
    if (ImGui::IsItemHovered() && model.history.can_redo())
        ImGui::SetTooltip("Do again: %s", model.history.redo_name().c_str());
    ImGui::SameLine(0, frame.px(16));
    int unit = model.shown == LengthUnit::mm ? 0 : 1;
    if (segments(frame, "unit", {"mm", "in"}, unit))
        set_unit(model, unit == 0 ? LengthUnit::mm : LengthUnit::inch);
    ImGui::SameLine();
    ImGui::SetCursorPosX(ImGui::GetWindowWidth() - frame.px(72));
    if (button(frame, "help", "Help")) model.help = !model.help;
}

void view_bar(WindowFrame& frame, double aspect) {
    Model& model = frame.model;
    const ImVec2 start = ImGui::GetCursorScreenPos();
    ImGui::SetCursorScreenPos({start.x, start.y + frame.px(7)});
    ImGui::BeginGroup();
    view_words(frame, aspect);
    ImGui::EndGroup();
    ImGui::SetCursorScreenPos({ImGui::GetItemRectMax().x + frame.px(18), start.y - frame.px(2)});
    ImGui::BeginGroup();
    pose_tracks(frame, aspect);
    ImGui::EndGroup();
    ImGui::SameLine(0, frame.px(16));
    const float x = ImGui::GetCursorScreenPos().x;
    ImGui::SetCursorScreenPos({x, start.y - frame.px(6)});
    ImGui::BeginGroup();
    ImGui::PushFont(frame.type.small);
    ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, {frame.px(3), frame.px(2)});
    switch_box(frame, "dimensions", "labels", model.labels);
    switch_box(frame, "loupe", "loupe", model.loupe);
    ImGui::EndGroup();
    ImGui::SameLine(0, frame.px(12));
    ImGui::SetCursorScreenPos({ImGui::GetCursorScreenPos().x, start.y - frame.px(6)});
    ImGui::BeginGroup();
    switch_box(frame, "room", "room", model.room);
    switch_box(frame, "room as colour", "heat", model.heat);
    ImGui::PopStyleVar();
    ImGui::PopFont();
    ImGui::EndGroup();
    const std::string hint = "drag: turn     wheel: closer     click: pick     H: all keys";
    ImFont* font = frame.type.small;
    const float edge = ImGui::GetWindowWidth() - frame.px(16);
    const float width = font->CalcTextSizeA(font->FontSize, 1e9F, 0, hint.c_str()).x;
    if (ImGui::GetItemRectMax().x + frame.px(24) + width > edge) return;
    ImGui::SetCursorScreenPos({start.x, start.y + frame.px(10)});
    right_aligned(font, frame.colours().quiet, hint, edge);
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
        {"click a part", "pick it; its numbers and adjusters are named"},
        {"F", "frame the picked part, or everything"},
        {"1 to 8", "axle, left, right, rear, top, mesh, float, section"},
        {"Space", "slide the axle through its float"},
        {"R, T", "turn the axle once; turn the bench once"},
        {"G", "a ghost of the setup before, and what changed since"},
        {"I, S, W", "the picked part alone, see-through, whole in the cut"},
        {"+ and - over an adjuster", "one step more, one step less"},
        {"D, L, X, C", "dimensions, loupe, exploded view, cutaway"},
        {"M, K", "room: clearances on the model, or as colour"},
        {"Tab", "hide or show the panels"},
        {"Ctrl Z, Ctrl Y", "undo, redo"},
        {"Ctrl O, Ctrl S, Ctrl Shift S", "open, save, save as"},
        {"Ctrl Q", "close"},
        {"Esc", "let go of what is picked"},
        {"H", "this sheet"},
    };
    const ImVec2 middle = ImGui::GetMainViewport()->GetCenter();
    ImGui::SetNextWindowPos(middle, ImGuiCond_Always, {0.5F, 0.5F});
    ImGui::SetNextWindowSizeConstraints({frame.px(620), 0}, {frame.px(620), 1e6F});
    ImGui::Begin("Keys and mouse", &frame.model.help,
                 ImGuiWindowFlags_AlwaysAutoResize | ImGuiWindowFlags_NoCollapse |
                     ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings);
    wrapped(frame.type.text, frame.colours().ink,
            "Drag an adjuster on the left: the model, the dimensions and the readings follow.");
    wrapped(frame.type.text, frame.colours().ink,
            "Findings on the right say what is wrong and what mends it.");
    ImGui::Dummy({0, frame.px(6)});
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
    ImGui::Dummy({0, frame.px(6)});
    wrapped(
        frame.type.small, frame.colours().quiet,
        "On the real car: battery out before hands go near gears or wheels; blades cut; tyre dust "
        "and solvents need a mask and air.");
    wrapped(frame.type.small, frame.colours().quiet,
            "The event's rules, the maker's manual and local law come first.");
    ImGui::End();
}

}  // namespace podwright
