#include "glossary.hpp"

#include "plain.hpp"

#include <algorithm>
#include <cctype>

namespace padwalk::report
{
namespace
{

bool is_letter(char c)
{
    return std::isalnum(static_cast<unsigned char>(c)) != 0;
}

// Whether the text holds these words, not as a part of longer ones; both in small letters.
bool holds(std::string const& text, std::string const& words)
{
    for (std::size_t at = text.find(words); at != std::string::npos; at = text.find(words, at + 1))
    {
        std::size_t const end = at + words.size();
        if ((at == 0 || !is_letter(text[at - 1])) && (end == text.size() || !is_letter(text[end])))
            return true;
    }
    return false;
}

std::string in_small(std::string text)
{
    for (char& c : text)
        c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return text;
}

struct AllText
{
    std::string out;

    void add(std::string const& text) { out += text + "\n"; }
    void add(std::vector<std::string> const& texts)
    {
        for (auto const& text : texts)
            add(text);
    }
    void operator()(Paragraph const& b) { add(b.text); }
    void operator()(Points const& b) { add(b.texts); }
    void operator()(Drawing const& b) { add(b.caption), add(b.in_words); }
    void operator()(AsWritten const&) {}
    void operator()(Table const& b)
    {
        add(b.caption);
        for (auto const& row : b.rows)
            for (auto const& cell : row)
                add(cell.text), add(cell.more);
    }
    void operator()(Card const& b)
    {
        add(b.title), add(b.tag);
        for (auto const& part : b.parts)
            add(part.texts);
    }
    void operator()(PhotoRow const& b)
    {
        for (auto const& photo : b.photos)
            add(photo.caption);
    }
    void operator()(Form const& b)
    {
        for (auto const& row : b.rows)
            add(row.text);
    }
};

} // namespace

std::string all_text(Page const& page)
{
    AllText all;
    for (auto const& section : page.sections)
    {
        all.add(section.heading);
        for (auto const& block : section.blocks)
            std::visit(all, block);
    }
    return all.out;
}

Section glossary_section(Page const& page, Glossary const& glossary, Lexicon const& words)
{
    Section out{"words", words("words_heading"), {}};
    std::string const text = in_small(all_text(page));
    Card card;
    for (auto const& term : glossary)
        if (holds(text, in_small(term.name)) ||
            std::any_of(term.forms.begin(), term.forms.end(),
                        [&](std::string const& f) { return holds(text, in_small(f)); }))
            card.parts.push_back({capitalised(term.name), {term.means}});
    if (!card.parts.empty())
        out.blocks.emplace_back(std::move(card));
    return out;
}

} // namespace padwalk::report
