#pragma once
#include "label_places.hpp"

namespace padwalk::report
{

/// As write_label, in as many lines as fit best; `widths` are tried, the first goes before others as good.
void write_wrapped_label(SvgSheet& sheet, LabelPlaces& labels, std::string const& text, std::vector<Spot> const& of,
                         Lettering const& type, std::vector<double> const& widths);

} // namespace padwalk::report
