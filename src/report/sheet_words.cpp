#include "sheet_words.hpp"

#include "plain.hpp"

namespace padwalk::report
{

std::vector<DangerBlock> danger_blocks(visit::SheetForm const& form)
{
    std::vector<DangerBlock> out;
    for (auto const& danger : form.dangers)
    {
        if (out.empty() || out.back().say != danger.say)
            out.push_back({{}, danger.say});
        out.back().asks.push_back(danger.ask);
    }
    return out;
}

std::string heading_of(visit::SheetGroup const& group)
{
    bool const says_kind = group.name.ends_with(group.kind);
    return says_kind ? capitalised(group.name)
                     : capitalised(group.kind) + (group.name.empty() ? "" : ": " + group.name);
}

} // namespace padwalk::report
