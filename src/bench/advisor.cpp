#include "bench/advisor.hpp"

#include <algorithm>
#include <utility>

#include "core/parameters.hpp"
#include "file/asset_library.hpp"

namespace podwright {

namespace {

/// Whether both have the same to choose from, and want the same of it.
bool same_wishes(const Setup& a, const Setup& b) {
    const Choosing& x = a.choosing;
    const Choosing& y = b.choosing;
    return x.box == y.box && x.goals == y.goals && x.rules == y.rules && x.day == y.day &&
           a.own_parts == b.own_parts;
}

bool same_values(const Setup& a, const Setup& b) {
    return std::all_of(parameters().begin(), parameters().end(), [&](const Parameter& p) {
        if (p.kind == ValueKind::text) return true;
        return p.kind == ValueKind::list ? p.get_list(a) == p.get_list(b) : p.get(a) == p.get(b);
    });
}

ChooseOptions options_of(Meter& meter, LengthUnit shown, const Watch& watch) {
    ChooseOptions options;
    options.meter = &meter;
    options.shown = shown;
    options.watch = watch;
    return options;
}

}  // namespace

Advisor::Advisor(std::function<void()> wake) : choosing_(wake), planning_(std::move(wake)) {}

void Advisor::start_choosing(const Model& model) {
    chosen_from_ = {model.history.now(), model.shown};
    choosing_.start([source = chosen_from_](const Watch& watch) {
        Meter meter(asset_library());
        return choose(source.setup, options_of(meter, source.shown, watch));
    });
}

void Advisor::start_planning(const Model& model) {
    planned_from_ = {model.history.now(), model.shown};
    planning_.start([source = planned_from_](const Watch& watch) {
        Meter meter(asset_library());
        return plan_day(source.setup, options_of(meter, source.shown, watch));
    });
}

void Advisor::stop() {
    choosing_.stop();
    planning_.stop();
}

void Advisor::poll(Model& model, double now) {
    if (auto choice = choosing_.take()) {
        choice_ = std::move(choice);
        picked_.clear();
    }
    if (auto plan = planning_.take()) {
        plan_ = std::move(plan);
        picked_.clear();
    }
    const Setup& present = model.history.now();
    if (choice_ && !same_wishes(chosen_from_.setup, present)) choice_.reset();
    if (plan_ && !same_wishes(planned_from_.setup, present)) plan_.reset();
    for (const std::string& failure : {choosing_.take_failure(), planning_.take_failure()})
        if (!failure.empty()) say(model, failure, now);
}

std::string Advisor::doing() const {
    return choosing_.running() ? choosing_.doing() : planning_.doing();
}

double Advisor::seconds() const {
    return choosing_.running() ? choosing_.seconds() : planning_.seconds();
}

bool Advisor::choice_is_old(const Model& model) const {
    return choice_ && !same_values(chosen_from_.setup, model.history.now());
}

bool Advisor::plan_is_old(const Model& model) const {
    return plan_ && !same_values(planned_from_.setup, model.history.now());
}

const Diagnosis& Advisor::diagnosis(const Model& model) {
    if (!diagnosis_ || diagnosed_ != model.revision || diagnosed_in_ != model.shown) {
        diagnosis_ = diagnose(model.setup, model.shown);
        diagnosed_ = model.revision;
        diagnosed_in_ = model.shown;
    }
    return *diagnosis_;
}

const std::vector<Adjuster>& Advisor::effects(const Model& model) {
    if (!effects_ || effects_of_ != model.revision || effects_in_ != model.shown) {
        effects_ = adjusters_of(model.setup, model.shown);
        effects_of_ = model.revision;
        effects_in_ = model.shown;
    }
    return *effects_;
}

void Advisor::offer(const std::string& name, const std::string& title, const Setup& setup,
                    bool hovered) {
    if (!hovered && (!is_picked(name) || offered_is_hovered_)) return;
    offered_ = Offer{name, setup};
    offered_->setup.title = title;
    offered_is_hovered_ = hovered;
}

void Advisor::show_offered(Model& model) {
    std::optional<Offer> offer = std::exchange(offered_, {});
    offered_is_hovered_ = false;
    if (!offer) {
        if (!picked_.empty()) model.look.alarmed.clear();
        picked_.clear();  // its page is left
        if (on_model_.empty()) return;
        on_model_.clear();
        model.ghost = std::exchange(before_, {});
        refresh_ghost(model);
        return;
    }
    if (offer->name == on_model_ && same_values(offer->setup, stands_there_)) return;
    if (on_model_.empty()) before_ = model.ghost;
    on_model_ = offer->name;
    stands_there_ = std::move(offer->setup);
    keep_ghost(model, stands_there_);
}

std::vector<Step> steps_to(const Model& model, const Setup& build) {
    return steps_between(model.history.now(), build, model.shown);
}

void take_build(Model& model, const Setup& build, std::string what, double now) {
    std::vector<Change> changes;
    for (const Step& step : steps_to(model, build))
        changes.insert(changes.end(), step.changes.begin(), step.changes.end());
    if (changes.empty()) {
        say(model, "The car stands like this already.", now);
        return;
    }
    model.play.reset();
    Setup next = with_changes(model.history.now(), changes);
    // An answer has its mesh set; what turning a holder leaves behind does not count.
    next.motor.clamped_at = build.motor.clamped_at;
    model.history.push(std::move(next), std::move(what));
    cancel(model);
}

}  // namespace podwright
