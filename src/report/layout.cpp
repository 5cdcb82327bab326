#include "templates.hpp"

#include "plain.hpp"

#include <stdexcept>

namespace padwalk::report
{
namespace
{

constexpr std::string_view folder = "report/";
constexpr std::string_view ending = ".html";

struct Terms
{
    Glossary terms;
    static fields::Record<Terms> const& declaration()
    {
        static auto const record = fields::Record<Terms>("glossary", "words of the trade, explained")
                                       .field("terms", &Terms::terms, "in the order in which they are told");
        return record;
    }
};

} // namespace

fields::Record<Term> const& Term::declaration()
{
    static auto const record = fields::Record<Term>("term", "a word of the trade")
                                   .field("term", &Term::name, "as pages use it")
                                   .required()
                                   .field("forms", &Term::forms, "other forms of it")
                                   .field("means", &Term::means, "to who is not of the trade")
                                   .required();
    return record;
}

Layout::Templates::Templates(reference::Data const& data)
    : style(data.file("report/style.css").text), sheet_style(data.file("report/sheet.css").text)
{
    for (auto const& path : data.files(folder))
    {
        if (!path.ends_with(ending))
            continue;
        kainjow::mustache::mustache one(data.file(path).text);
        if (!one.is_valid())
            throw reference::DataProblems(path, data.file(path).text, {{{}, 0, one.error_message(), {}, {}}});
        one.set_custom_escape([](std::string const& text) { return in_markup(text, "<br>"); });
        std::string name = path.substr(folder.size(), path.size() - folder.size() - ending.size());
        made_.emplace(std::move(name), std::move(one));
    }
}

std::string Layout::Templates::filled(std::string_view name, kainjow::mustache::data const& with) const
{
    auto const found = made_.find(name);
    if (found == made_.end())
        throw std::out_of_range("no template '" + std::string(name) + "' in data/report");
    std::string out;
    found->second.render(with, [&](std::string const& piece) { out += piece; });
    return out;
}

Layout::Layout(reference::Data const& data)
    : templates_(std::make_unique<Templates const>(data)), english_(data, Language::english),
      spanish_(data, Language::spanish), glossary_(reference::read_table<Terms>(data, "report/glossary.yaml").terms)
{
}

Layout::Layout(Layout&&) noexcept = default;
Layout::~Layout() = default;

Lexicon const& Layout::words(Language language) const
{
    return language == Language::spanish ? spanish_ : english_;
}

} // namespace padwalk::report
