#include "padwalk/reference/sources.hpp"

#include <algorithm>
#include <cmath>
#include <memory>

namespace padwalk::reference
{

using fields::Record;

Record<Cited> const& Cited::declaration()
{
    static Record<Cited> const record = Record<Cited>("source", "where a figure comes from")
                                            .field("key", &Cited::key, "key of the bibliography")
                                            .required()
                                            .field("where", &Cited::where, "page, table or section")
                                            .field("seen", &Cited::seen, "how it was seen")
                                            .required();
    return record;
}

Record<Source> const& Source::declaration()
{
    static Record<Source> const record = Record<Source>("sources", "a work of the bibliography")
                                             .field("title", &Source::title, "what it is")
                                             .required()
                                             .field("by", &Source::by, "who wrote or issued it")
                                             .field("year", &Source::year, "year or edition")
                                             .field("seen", &Source::seen, "what of it was seen")
                                             .required();
    return record;
}

Record<Instrument> const& Instrument::declaration()
{
    static Record<Instrument> const record =
        Record<Instrument>("instrument", "what an instrument's readings are worth")
            .field("name", &Instrument::name, "as it is called in a report")
            .required()
            .field("doubt", &Instrument::doubt, "standard uncertainty, with its unit")
            .field("share", &Instrument::share, "or this share of the reading, whichever is more")
            .field("source", &Instrument::source, "where the figure comes from")
            .required();
    return record;
}

namespace
{

/// Every data file may hold `sources:`; this record reads that key and no other.
struct SourcesOnly
{
    fields::Named<Source> sources;
    static Record<SourcesOnly> const& declaration()
    {
        static Record<SourcesOnly> const record =
            Record<SourcesOnly>("file", "a data file").field("sources", &SourcesOnly::sources, "works cited");
        return record;
    }
};

struct InstrumentTable
{
    fields::Named<Instrument> instruments;
    fields::Named<Source> sources;
    static Record<InstrumentTable> const& declaration()
    {
        static Record<InstrumentTable> const record =
            Record<InstrumentTable>("instruments", "the instrument table")
                .field("instruments", &InstrumentTable::instruments, "by kind")
                .required()
                .field("sources", &InstrumentTable::sources, "works cited");
        return record;
    }
};

// A kit's word as the reader of choices takes it: case aside.
std::string as_choice(std::string const& written)
{
    std::string out = fields::normal_key(written);
    for (char& c : out)
        c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    return out;
}

// The doubt column is text because its unit depends on the reading it is for.
double doubt_of(Instrument const& instrument, units::Reading const& reading)
{
    double doubt = instrument.share ? std::abs(reading.value) * units::in_si(*instrument.share) : 0.0;
    if (!instrument.doubt)
        return doubt;
    bool const bare =
        units::info(reading.measure).dimension == units::Dimension::none || reading.measure == units::Measure::fraction;
    // 'a ± b' reads b as a difference of the measure's own scale, also for temperatures; coverage is taken out again.
    std::string const text = bare ? "0 ± " + *instrument.doubt : "0 +/- " + *instrument.doubt;
    auto const read = units::read_quantity(text, reading.measure, "doubt");
    if (auto const* bad = std::get_if<units::TextProblem>(&read))
        throw std::logic_error("instrument '" + instrument.name + "': " + bad->message);
    return std::max(doubt, std::get<units::Reading>(read).doubt * units::coverage);
}

} // namespace

std::map<std::string, Source> bibliography(Data const& data)
{
    std::map<std::string, Source> out;
    for (auto const& path : data.files())
    {
        fields::Node const* sources = data.file(path).find("sources");
        if (sources == nullptr)
            continue;
        SourcesOnly read;
        fields::ReadContext context;
        fields::read_record(fields::Node::map({{"sources", sources->place, *sources}}), read, context);
        for (auto const& [key, source] : read.sources)
            if (!out.emplace(key, source).second)
                context.problems.push_back(
                    {sources->place, 0, "source '" + key + "' stands in two files", "keep one", {}});
        if (!context.problems.empty())
            throw DataProblems(path, {}, context.problems);
    }
    return out;
}

fields::Instruments instruments(Data const& data)
{
    auto const table = std::make_shared<std::map<std::string, Instrument>>();
    for (auto const& [key, row] : read_table<InstrumentTable>(data, "instruments.yaml").instruments)
        table->emplace(key, row);
    return [table](units::Reading const& reading, std::string const& row,
                   fields::Node const& record) -> fields::InstrumentDoubt
    {
        fields::Node const* kit = record.find("kit");
        auto found = kit != nullptr ? table->find(row + "/" + as_choice(kit->text)) : table->end();
        if (found == table->end())
            found = table->find(row);
        if (found == table->end())
            throw std::logic_error("no instrument '" + row + "' in data/instruments.yaml");
        return {doubt_of(found->second, reading), found->second.name};
    };
}

} // namespace padwalk::reference
