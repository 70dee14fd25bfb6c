#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "bench/job.hpp"
#include "bench/model.hpp"
#include "choose/diagnose.hpp"
#include "choose/effects.hpp"
#include "choose/plan.hpp"

namespace podwright {

/// What is found out for the user beside the setup itself: the best builds, the plan of the day,
/// mistakes, effects; and which of them stands on the model as a ghost.
class Advisor {
public:
    /// `wake` is called from another thread when there is something new to show.
    explicit Advisor(std::function<void()> wake);

    void start_choosing(const Model& model);
    void start_planning(const Model& model);
    void stop();
    /// Takes over what has been found; forgets what was found for another scene.
    void poll(Model& model, double now);
    bool busy() const { return choosing_.running() || planning_.running(); }
    bool choosing() const { return choosing_.running(); }
    bool planning() const { return planning_.running(); }
    /// What is being done, and for how long, s.
    std::string doing() const;
    double seconds() const;

    const std::optional<Choice>& choice() const { return choice_; }
    const std::optional<DayPlan>& plan() const { return plan_; }
    /// Whether box, goals, limits or car are others than those that were chosen or planned from.
    bool choice_is_old(const Model& model) const;
    bool plan_is_old(const Model& model) const;

    /// Of the setup that is shown; calculated when it is another one.
    const Diagnosis& diagnosis(const Model& model);
    const std::vector<Adjuster>& effects(const Model& model);
    std::string effect_reading = "ride.rear";  ///< whose effects are listed
    bool whole_table = false;                  ///< of all effects stands over the bench

    /// Something that can stand on the model as a ghost. To be called in every frame in which it
    /// can be seen; the hovered one is shown, else the picked one.
    void offer(const std::string& name, const std::string& title, const Setup& setup, bool hovered);
    bool is_picked(const std::string& name) const { return picked_ == name; }
    void pick(const std::string& name) { picked_ = is_picked(name) ? std::string() : name; }
    /// After everything was offered: puts the ghost on the model, or takes it away again.
    void show_offered(Model& model);

private:
    struct Offer {
        std::string name;
        Setup setup;
    };
    /// What a choice or plan was made from.
    struct Source {
        Setup setup;
        LengthUnit shown = LengthUnit::mm;
    };

    Job<Choice> choosing_;
    Job<DayPlan> planning_;
    std::optional<Choice> choice_;
    std::optional<DayPlan> plan_;
    Source chosen_from_, planned_from_;

    std::optional<Diagnosis> diagnosis_;
    std::size_t diagnosed_ = 0;  ///< revision
    LengthUnit diagnosed_in_ = LengthUnit::mm;
    std::optional<std::vector<Adjuster>> effects_;
    std::size_t effects_of_ = 0;
    LengthUnit effects_in_ = LengthUnit::mm;

    std::string picked_;
    std::optional<Offer> offered_;
    bool offered_is_hovered_ = false;
    std::string on_model_;  ///< name of what stands there; empty: nothing of these
    Setup stands_there_;
    Ghost before_;  ///< the ghost that was there
};

/// Makes the build of `build` the present: parts and settings that builds differ in, nothing else.
void take_build(Model& model, const Setup& build, std::string what, double now);

/// What take_build() would do, in words.
std::vector<Step> steps_to(const Model& model, const Setup& build);

}  // namespace podwright
