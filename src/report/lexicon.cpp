#include "padwalk/report/layout.hpp"

#include <map>
#include <stdexcept>

namespace padwalk::report
{
namespace
{

using fields::Node;
using Texts = std::map<std::string, std::string, std::less<>>;

// Every text of a tree by the keys that lead to it.
void gather(Texts& to, Node const& node, std::string const& path)
{
    if (node.kind == Node::Kind::scalar)
        to.emplace(path, node.text);
    for (auto const& entry : node.entries)
        gather(to, entry.value, path.empty() ? entry.key : path + "/" + entry.key);
}

Texts fixed_words(reference::Data const& data, std::string const& code)
{
    std::string const file = "report/words.yaml";
    Texts out;
    for (auto const& entry : data.file(file).entries)
    {
        Node const* text = entry.value.find(code);
        if (text == nullptr || text->text.empty())
            throw reference::DataProblems(
                file, {}, {{entry.place, entry.key.size(), "'" + entry.key + "' has no '" + code + "'", {}, {}}});
        out.emplace(entry.key, text->text);
    }
    return out;
}

// A reading names its instrument by the name, not by the row.
void name_instruments(Texts& knowledge, Node const& instruments)
{
    for (auto const& row : instruments.entries)
        if (Node const* name = row.value.find("name"))
            if (auto const said = knowledge.find("instruments/" + row.key); said != knowledge.end())
                knowledge.emplace("instruments/" + name->text, std::string(said->second));
}

} // namespace

struct Lexicon::Words
{
    Language language;
    Texts fixed, knowledge;
};

Lexicon::Lexicon(reference::Data const& data, Language language)
{
    bool const spanish = language == Language::spanish;
    Words words{language, fixed_words(data, spanish ? "es" : "en"), {}};
    if (spanish)
    {
        for (auto const& path : data.files("report/spanish/"))
            gather(words.knowledge, data.file(path), {});
        name_instruments(words.knowledge, data.file("instruments.yaml").at("instruments"));
    }
    words_ = std::make_unique<Words const>(std::move(words));
}

Lexicon::Lexicon(Lexicon&&) noexcept = default;
Lexicon::~Lexicon() = default;

std::string const& Lexicon::operator()(std::string_view key) const
{
    auto const found = words_->fixed.find(key);
    if (found == words_->fixed.end())
        throw std::out_of_range("no word '" + std::string(key) + "' in report/words.yaml");
    return found->second;
}

std::string Lexicon::filled(std::string_view key, std::string_view with) const
{
    std::string out = (*this)(key);
    if (auto const at = out.find("{}"); at != std::string::npos)
        out.replace(at, 2, with);
    return out;
}

std::string Lexicon::said(std::string_view place, std::string const& english) const
{
    auto const found = words_->knowledge.find(place);
    return found == words_->knowledge.end() || found->second.empty() ? english : found->second;
}

bool Lexicon::knows(std::string_view place) const
{
    return words_->knowledge.contains(place);
}

Language Lexicon::language() const
{
    return words_->language;
}

std::string_view Lexicon::code() const
{
    return words_->language == Language::spanish ? "es" : "en";
}

} // namespace padwalk::report
