#include "found_entries.hpp"

#include "plain.hpp"

#include <algorithm>
#include <cctype>

namespace padwalk::report
{
namespace
{

/// A key with what stands below it.
struct Branch
{
    std::string key;
    std::vector<Branch> below;
    bool found = false;
};

Branch& branch(std::vector<Branch>& of, std::string const& key)
{
    auto const known = std::find_if(of.begin(), of.end(), [&](Branch const& b) { return b.key == key; });
    if (known != of.end())
        return *known;
    of.push_back({key, {}, false});
    return of.back();
}

void grow(std::vector<Branch>& top, std::string const& path)
{
    std::vector<Branch>* level = &top;
    std::size_t from = 0;
    while (true)
    {
        std::size_t const at = path.find('/', from);
        Branch& one = branch(*level, path.substr(from, at == std::string::npos ? at : at - from));
        if (at == std::string::npos)
        {
            one.found = true;
            return;
        }
        level = &one.below;
        from = at + 1;
    }
}

// Names that people gave may hold anything.
std::string as_key(std::string const& name)
{
    bool const plain = !name.empty() && std::isalpha(static_cast<unsigned char>(name.front())) != 0 &&
                       name.back() != ' ' &&
                       std::all_of(name.begin(), name.end(),
                                   [](char c)
                                   {
                                       auto const byte = static_cast<unsigned char>(c);
                                       return std::isalnum(byte) != 0 || c == ' ' || c == '_' || c == '-';
                                   });
    if (plain)
        return name;
    std::string out = "\"";
    for (char const c : clean(name))
        out += c == '"' || c == '\\' ? std::string("\\") + c : c == '\n' ? std::string(" ") : std::string(1, c);
    return out + "\"";
}

void write(std::string& to, std::vector<Branch> const& level, std::size_t set_in)
{
    std::string const before(set_in, ' ');
    for (auto const& one : level)
    {
        to += before + as_key(one.key) + ":\n";
        write(to, one.below, set_in + 2);
        if (one.found)
            to += before + "  found:\n" + before + "    - was: \n";
    }
}

} // namespace

std::string found_entries(assess::Assessment const& a, std::vector<std::size_t> const& items)
{
    std::vector<Branch> top;
    for (std::size_t const item : items)
        if (!a.items.at(item).path.empty())
            grow(top, a.items.at(item).path);
    std::string out;
    write(out, top, 0);
    return out;
}

} // namespace padwalk::report
