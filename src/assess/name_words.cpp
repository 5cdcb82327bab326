#include "name_words.hpp"

namespace padwalk::assess
{

std::string lowered(std::string text)
{
    for (char& c : text)
        c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    return text;
}

bool says(std::string const& name, std::string_view word)
{
    std::string const text = lowered(name);
    auto letter = [&text](std::size_t at) { // anything beyond ASCII is a letter of some language
        return at < text.size() && ((text[at] >= 'a' && text[at] <= 'z') || static_cast<unsigned char>(text[at]) > 127);
    };
    for (auto at = text.find(word); at != std::string::npos; at = text.find(word, at + 1))
    {
        std::size_t const after = at + word.size();
        bool const plural = after < text.size() && text[after] == 's';
        if ((at == 0 || !letter(at - 1)) && !letter(plural ? after + 1 : after))
            return true;
    }
    return false;
}

} // namespace padwalk::assess
