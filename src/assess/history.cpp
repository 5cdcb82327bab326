// A folder of visits: read, assessed, grouped by property and put in order.
#include "history_parts.hpp"

#include <algorithm>

namespace padwalk::assess
{
namespace
{

bool earlier(AssessedVisit const* a, AssessedVisit const* b)
{
    auto const &x = a->read.visit.on, &y = b->read.visit.on;
    if (x.has_value() != y.has_value())
        return x.has_value(); // the undated last
    if (x && x->hours != y->hours)
        return x->hours < y->hours;
    return a->file < b->file;
}

} // namespace

LogBench::LogBench(std::vector<AssessedVisit const*> in_order, Engine const& the_engine, units::System the_system)
    : engine(the_engine), system(the_system), visits(std::move(in_order))
{
    for (auto const* visit : visits)
    {
        auto const& a = visit->assessment;
        out.visits.push_back({visit->file, visit->read.visit.on, visit->read.visit.by, a.outcome, a.summary});
        if (out.name.empty())
            out.name = a.property;
    }
    list_items();
    note_oddities();
}

std::size_t LogBench::dated_visits() const
{
    return static_cast<std::size_t>(
        std::count_if(out.visits.begin(), out.visits.end(), [](VisitInLog const& v) { return v.on.has_value(); }));
}

// An item is the same where its place in the file reads the same.
void LogBench::list_items()
{
    std::map<std::string, std::size_t> by_path{{"", 0}};
    out.items.emplace_back("the property");
    for (auto const* visit : visits)
    {
        auto& at = items_at_.emplace_back();
        for (auto const& item : visit->assessment.items)
        {
            auto const [known, fresh] = by_path.emplace(fields::normal_key(item.path), out.items.size());
            if (fresh)
                out.items.push_back(item.name);
            at.push_back(known->second);
        }
    }
}

void LogBench::note_oddities()
{
    std::vector<std::string> undated;
    for (std::size_t i = 0; i < out.visits.size(); ++i)
    {
        auto const& visit = out.visits[i];
        if (!visit.on)
            undated.push_back(visit.file);
        else if (i > 0 && dated(i - 1) && out.visits[i - 1].on->text == visit.on->text)
            out.notes.push_back(out.visits[i - 1].file + " and " + visit.file + " are of the same moment, " +
                                visit.on->text + "; both count, and which came first is not known");
    }
    for (auto const& file : undated)
        out.notes.push_back(file + " has no date, so it stands in no trend and on no picture");
    if (dated_visits() == 1)
        out.notes.emplace_back("one dated visit only: there is nothing to follow over time yet");
}

std::size_t History::visits() const
{
    std::size_t all = 0;
    for (auto const& property : properties)
        all += property.visits.size();
    return all;
}

History history(std::vector<std::pair<std::string, std::string>> files, Engine const& engine, units::System system)
{
    std::sort(files.begin(), files.end());
    History out;
    std::vector<AssessedVisit> all;
    for (auto const& [file, text] : files)
        try
        {
            auto read = visit::read_visit(text, engine.instruments());
            auto assessment = assess(read, engine, system);
            all.push_back({file, std::move(read), std::move(assessment)});
        }
        catch (fields::InputProblems const& bad)
        {
            out.not_read.push_back({file, fields::as_text(bad.list(), file, text)});
        }
    std::map<std::string, std::vector<AssessedVisit const*>> by_property;
    for (auto const& visit : all)
        by_property[fields::normal_key(visit.assessment.property)].push_back(&visit);
    for (auto& [key, visits] : by_property)
    {
        std::sort(visits.begin(), visits.end(), earlier);
        LogBench log(visits, engine, system);
        add_series(log);
        add_events(log);
        out.properties.push_back(std::move(log.out));
    }
    // That without a name sorts first by its key.
    if (out.properties.size() > 1 && out.properties.front().name.empty())
        std::rotate(out.properties.begin(), out.properties.begin() + 1, out.properties.end());
    return out;
}

} // namespace padwalk::assess
