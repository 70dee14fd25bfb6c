#include "bench/tell.hpp"

#include <cstdio>
#include <nlohmann/json.hpp>

#include "bench/file_words.hpp"
#include "bench/load_case.hpp"
#include "core/parameters.hpp"

namespace podwright {

void Teller::tell(const Model& model, const std::vector<std::pair<std::string, PixelBox>>& places,
                  std::size_t frames) {
    nlohmann::ordered_json line;
    line["title"] = model.setup.title;
    line["path"] = plain(model.path);
    line["file"] = file_words(model);
    line["saved"] = model.history.is_saved();
    line["view"] = model.view_moved ? "" : model.view;
    line["picked"] = model.look.picked;
    line["hovered"] = model.look.hovered;
    line["message"] = model.message;
    line["page"] = page_name(model.page);
    const auto& studies = model.evaluation.feel.tolerances;
    line["builds_of"] =
        model.builds_of < studies.size() ? studies[model.builds_of].stack_up.title : "";
    line["load_case"] = model.felt ? std::string(key(model.felt->which)) : std::string();
    line["load"] = model.felt_share;
    line["looked_at"] = model.looked_at;
    line["ghost"] = model.ghost.of == Ghost::Of::kept     ? model.ghost.title
                    : model.ghost.of == Ghost::Of::before ? "before"
                                                          : "";
    line["pose"] = {{"along", model.look.pose.along},
                    {"turn", model.look.pose.turn},
                    {"spread", model.look.pose.spread}};
    for (const Clearance& c : model.evaluation.clearances)
        line["clearances"][c.a + "|" + c.b] = {c.now.gap, c.worst.gap};
    line["findings"] = nlohmann::ordered_json::array();
    for (const Finding& f : model.evaluation.findings) line["findings"].push_back(f.code);
    for (const Reading& r : model.evaluation.readings)
        line["readings"][std::string(r.name)] = r.value;
    for (const Parameter& p : parameters()) {
        if (p.get)
            if (const auto value = p.get(model.setup)) line["values"][p.key] = *value;
        if (p.get_list) line["values"][p.key] = p.get_list(model.setup);
    }
    line["camera"] = {{"azimuth", model.camera.azimuth},
                      {"elevation", model.camera.elevation},
                      {"distance", model.camera.distance}};
    for (const auto& [name, box] : places)
        line["places"][name] = {box.low.x, box.low.y, box.high.x - box.low.x,
                                box.high.y - box.low.y};
    const auto text = [&] {
        return line.dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace);
    };
    std::string now = text();
    if (now == last_) return;
    last_ = std::move(now);
    line["frames"] = frames;
    std::puts(text().c_str());
    std::fflush(stdout);
}

}  // namespace podwright
