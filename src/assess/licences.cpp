// The licence classes that may do the work of each trade sent, in the state that the visit names.
#include "padwalk/assess/licences.hpp"

#include "judge.hpp"

namespace padwalk::assess
{
namespace
{

using fields::Record;

struct WrittenClass
{
    std::string name;
    reference::Cited source;
    static Record<WrittenClass> const& declaration()
    {
        static Record<WrittenClass> const record = Record<WrittenClass>("licence_class", "a class that may do it")
                                                       .field("name", &WrittenClass::name, "as the state calls it")
                                                       .required()
                                                       .field("source", &WrittenClass::source, "where it comes from")
                                                       .required();
        return record;
    }
};

struct WrittenTrade
{
    std::string note;
    std::vector<WrittenClass> classes;
    static Record<WrittenTrade> const& declaration()
    {
        static Record<WrittenTrade> const record =
            Record<WrittenTrade>("licences_of_trade", "who may do a trade's work")
                .field("note", &WrittenTrade::note, "where there is no class, or none of its own")
                .field("classes", &WrittenTrade::classes, "classes, those seen first");
        return record;
    }
};

struct WrittenState
{
    std::string state, board, say;
    fields::Named<WrittenTrade> trades;
    fields::Named<reference::Source> sources;
    static Record<WrittenState> const& declaration()
    {
        static Record<WrittenState> const record =
            Record<WrittenState>("licences", "licence classes of one state")
                .field("state", &WrittenState::state, "its name")
                .required()
                .field("board", &WrittenState::board, "who gives the licences")
                .required()
                .field("say", &WrittenState::say, "what to say beside them")
                .required()
                .field("trades", &WrittenState::trades, "by trade of the knowledge")
                .required()
                .field("sources", &WrittenState::sources, "works cited");
        return record;
    }
};

} // namespace

StateLicences state_licences(reference::Data const& data, visit::LicencesOf of)
{
    std::string const id = fields::words_of<visit::LicencesOf>::words()[static_cast<std::size_t>(of)];
    auto const file = reference::read_table<WrittenState>(data, "licences/" + id + ".yaml");
    StateLicences out{file.state, file.board, file.say, {}};
    for (auto const& [trade, written] : file.trades)
    {
        TradeLicences licences{written.note, {}};
        for (auto const& one : written.classes)
            licences.classes.push_back({one.name, one.source.key, one.source.seen == reference::Seen::memory});
        out.trades.emplace_back(trade, std::move(licences));
    }
    return out;
}

void name_licences(Workbench& w)
{
    if (!w.visit.licences || w.out.referrals.empty())
        return;
    auto const state = state_licences(w.engine.data(), *w.visit.licences);
    w.out.licences_of = state.state;
    w.out.licences_say = "Classes as given by " + state.board + ". " + state.say;
    for (auto& referral : w.out.referrals)
        for (auto const& [trade, licences] : state.trades)
            if (trade == referral.trade)
            {
                referral.licence_note = licences.note;
                referral.licences = licences.classes;
                for (auto const& one : licences.classes)
                    if (!one.from_memory)
                        w.cited.insert(one.key);
            }
}

} // namespace padwalk::assess
