#pragma once
/// The templates of data/report, each parsed once. A page is filled from the inside out: blocks, sections, document.

#include "padwalk/report/layout.hpp"

#include <kainjow/mustache.hpp>

#include <map>

namespace padwalk::report
{

struct Layout::Templates
{
    explicit Templates(reference::Data const& data);

    /// Every `{{text}}` is cleaned and escaped; `{{{markup}}}` goes in as it is. Throws std::out_of_range for a
    /// template that is not there.
    [[nodiscard]] std::string filled(std::string_view name, kainjow::mustache::data const& with) const;

    std::string style;       ///< of every page
    std::string sheet_style; ///< of the sheet for a pen, which is black on white and in millimetres

private:
    // The library's render keeps its line buffer outside, but does not say const.
    mutable std::map<std::string, kainjow::mustache::mustache, std::less<>> made_;
};

} // namespace padwalk::report
