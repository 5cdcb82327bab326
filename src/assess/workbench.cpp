#include "workbench.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::assess
{
namespace
{

FindingState state_of(double probability, double clear)
{
    return probability > clear       ? FindingState::seen
           : probability < 1 - clear ? FindingState::not_seen
                                     : FindingState::unclear;
}

} // namespace

Workbench::Workbench(visit::ReadVisit const& read, Engine const& engine_, units::System system_,
                     std::vector<std::string> asked_about)
    : visit(read.visit), engine(engine_), system(system_), rules(engine_.data(), system_),
      property(read.visit, out.assumptions), asked(std::move(asked_about))
{
    out.by = visit.by;
    if (!visit.by)
        out.assumptions.push_back(
            {"an inspector walked", "'by' was not given; checks are kept to what an inspector may do"});
    out.on = visit.on ? visit.on->text : "";
    out.property = visit.property;
    out.weather = visit.weather;
    out.notes = visit.notes;
    out.oddities = read.oddities;
    out.blanks = read.blanks;
    for (auto const& thing : property.things())
        out.items.push_back(thing.entry);
}

figures::Figure Workbench::figure(std::size_t item, std::string const& model, figures::Inputs const& inputs,
                                  std::string label)
{
    figures::Figure result = figures::run(engine.catalogue().at(model), inputs);
    last_kept_ = result.computed() || !result.why_not.starts_with("needs ");
    if (last_kept_)
    {
        for (auto const& used : result.inputs)
            if (used.assumed)
                out.assumptions.push_back({used.shape->name + " of " +
                                               (used.words.empty() ? show(used.reading) : used.words) + " for " + label,
                                           used.shape->because});
        out.figures.push_back({item, std::move(label), result, {}});
    }
    return result;
}

void Workbench::meaning(std::string text)
{
    if (last_kept_ && !out.figures.empty())
        out.figures.back().meaning = std::move(text);
}

void Workbench::verdict(std::string text)
{
    if (!last_kept_ || out.figures.empty())
        return;
    for (auto& output : out.figures.back().figure.outputs)
        if (output.shape->name == "in_words")
            output.words.clear();
    meaning(std::move(text));
}

void Workbench::computed(std::size_t item, std::string const& id, double probability, std::string from,
                         std::string const& reading)
{
    auto const* entry = engine.knowledge().finding(id);
    if (entry == nullptr)
        throw std::logic_error("no finding '" + id + "' in the knowledge");
    double const trust = rules.act("model_trust");
    double const p = std::clamp(probability, 1 - trust, trust);
    // A comparison that says "surely not" is taken at its word: how often a cause fails to show is in the links'
    // weights. One that says "surely" is not, since the reading or the model may be off.
    diagnosis::Evidence const weighed = probability <= 1 - trust ? diagnosis::not_seen(0) : diagnosis::likely(0, p);
    for (std::size_t i = 0; i < out.findings.size(); ++i)
        if (out.findings[i].computed && out.findings[i].id == id && out.findings[i].item == item)
        {
            if (p > out.findings[i].probability) // it is so if either comparison says so
            {
                out.findings[i].probability = p;
                out.findings[i].state = state_of(p, rules.act("clear_yes"));
                out.findings[i].from = std::move(from);
                evidence[i] = weighed;
                shared_reading[i] = reading;
            }
            return;
        }
    FindingState const state = state_of(p, rules.act("clear_yes"));
    out.findings.push_back({id, entry->name, item, state, p, true, std::move(from)});
    evidence.push_back(weighed);
    shared_reading.push_back(reading);
}

void Workbench::noticed(std::size_t item, std::string const& id, bool there, std::string from)
{
    auto const* entry = engine.knowledge().finding(id);
    if (entry == nullptr)
        throw std::logic_error("no finding '" + id + "' in the knowledge");
    for (auto const& known : out.findings)
        if (known.id == id && known.item == item && !known.computed && (known.state == FindingState::seen) == there)
            return; // said twice
    out.findings.push_back({id, entry->name, item, there ? FindingState::seen : FindingState::not_seen,
                            there ? 1.0 : 0.0, false, std::move(from)});
    evidence.push_back(there ? diagnosis::seen(0) : diagnosis::not_seen(0));
    shared_reading.emplace_back();
}

namespace
{

template <units::Quantity Q> visit::Taken<Q> by_shape(Assessment const& a, std::size_t water, std::string_view output)
{
    for (auto const& entry : a.figures)
        if (entry.item == water && entry.figure.model->name == "water_volume")
            return entry.figure.get<Q>(output);
    return std::nullopt;
}

} // namespace

visit::Taken<units::Volume> Workbench::volume_of(std::size_t water) const
{
    auto const& given = property.at(water).water->volume;
    return given ? given : by_shape<units::Volume>(out, water, "volume");
}

visit::Taken<units::Area> Workbench::area_of(std::size_t water) const
{
    auto const& given = property.at(water).water->area;
    return given ? given : by_shape<units::Area>(out, water, "area");
}

std::string Workbench::show(units::Reading const& r, std::string_view unit) const
{
    bool const us = system == units::System::us; // the unit asked for is a US one
    return units::show_with_doubt(r.measure, r.value, r.doubt, {system, us ? unit : std::string_view{}, {}});
}

} // namespace padwalk::assess
