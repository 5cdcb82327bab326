#include "documents.hpp"

#include "padwalk/assess/water_sheet.hpp"
#include "padwalk/report/documents.hpp"
#include "padwalk/units/definitions.hpp"
#include "photos.hpp"
#include "visit_read.hpp"

#include <algorithm>
#include <ostream>

namespace padwalk::command_line
{
namespace
{

report::DocumentOptions options_of(Arguments const& arguments, report::Photos const* photos = nullptr)
{
    return {arguments.system, arguments.language, photos};
}

report::TextOptions text_options(Arguments const& arguments, World const& world)
{
    return {arguments.system, world.columns, world.colour};
}

/// A visit assessed, with what its pages need. The engine outlives the assessment.
struct Assessed
{
    assess::Engine engine;
    report::Layout layout;
    std::optional<assess::WaterReport> report;

    Assessed(Arguments const& arguments, World& world) : engine(data_for(arguments, world)), layout(engine.data())
    {
        auto const read = visit_or_problems(world.read_file(arguments.visit), arguments, engine.instruments(), world);
        if (read)
            report = assess::assess_water(*read, engine, arguments.system,
                                          units::of_si<units::Duration>(arguments.days * units::exact::day));
    }
    [[nodiscard]] assess::Assessment const& assessment() const { return report->assessment; }
};

// Which referral is meant: by the trade's id, or by words of its name.
std::vector<std::size_t> meant(assess::Assessment const& a, std::string const& trade)
{
    std::vector<std::size_t> out;
    for (std::size_t i = 0; i < a.referrals.size(); ++i)
    {
        auto const& referral = a.referrals[i];
        if (referral.trade == trade || referral.name == trade)
            return {i};
        if (referral.trade.find(trade) != std::string::npos || referral.name.find(trade) != std::string::npos)
            out.push_back(i);
    }
    return out;
}

std::string trades_of(assess::Assessment const& a)
{
    std::string out;
    for (auto const& referral : a.referrals)
        out += (out.empty() ? "" : ", ") + referral.trade;
    return out;
}

// The one that is asked for, or all.
std::vector<std::size_t> chosen(assess::Assessment const& a, std::string const& trade)
{
    std::vector<std::size_t> all;
    for (std::size_t i = 0; i < a.referrals.size(); ++i)
        all.push_back(i);
    if (trade.empty())
        return all;
    auto const one = meant(a, trade);
    if (one.size() == 1)
        return one;
    throw UsageProblem(a.referrals.empty() ? "no trade is needed by this visit, so there is nothing to refer"
                       : one.empty()       ? "no '" + trade + "' is needed by this visit; needed: " + trades_of(a)
                                           : "'" + trade + "' may mean several; needed: " + trades_of(a));
}

} // namespace

int client(Arguments const& arguments, World& world)
{
    Assessed const visit(arguments, world);
    if (!visit.report)
        return input_problem;
    if (arguments.html.empty())
        world.out << report::client_text(*visit.report, visit.layout, options_of(arguments),
                                         text_options(arguments, world));
    else
    {
        auto const photos = embedded_photos(visit.assessment(), arguments.visit, world);
        world.write_file(arguments.html,
                         report::client_html(*visit.report, visit.layout, options_of(arguments, &photos)),
                         arguments.force);
        world.err << "page for the client written to " << arguments.html << "\n";
    }
    return status_of(visit.assessment());
}

int refer(Arguments const& arguments, World& world)
{
    Assessed const visit(arguments, world);
    if (!visit.report)
        return input_problem;
    auto const& a = visit.assessment();
    auto const which = chosen(a, arguments.trade);
    if (which.empty())
        world.err << "no trade is needed by this visit\n";
    if (arguments.html.empty())
    {
        for (std::size_t const i : which)
            world.out << (i == which.front() ? "" : "\n\n")
                      << report::referral_text(a, i, visit.layout, options_of(arguments),
                                               text_options(arguments, world));
        return status_of(a);
    }
    if (which.size() > 1)
        throw UsageProblem("several trades are needed (" + trades_of(a) +
                           "): name one with --for, or write all with 'padwalk documents VISIT --out FOLDER'");
    if (!which.empty())
    {
        auto const photos = embedded_photos(a, arguments.visit, world);
        world.write_file(arguments.html,
                         report::referral_html(a, which.front(), visit.layout, options_of(arguments, &photos)),
                         arguments.force);
        world.err << "paper for the " << a.referrals[which.front()].name << " written to " << arguments.html << "\n";
    }
    return status_of(a);
}

int documents(Arguments const& arguments, World& world)
{
    Assessed const visit(arguments, world);
    if (!visit.report)
        return input_problem;
    std::vector<std::pair<std::string, std::string>> files;
    std::string names;
    auto const photos = embedded_photos(visit.assessment(), arguments.visit, world);
    for (auto& document : report::documents(*visit.report, visit.layout, options_of(arguments, &photos)))
    {
        names += "  " + document.name + ".html  " + document.title + "\n";
        files.emplace_back(arguments.out_file + "/" + document.name + ".html", std::move(document.html));
    }
    world.write_files(files, arguments.force);
    world.out << "written to " << arguments.out_file << ":\n" << names;
    return status_of(visit.assessment());
}

} // namespace padwalk::command_line
