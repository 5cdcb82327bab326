#pragma once
/// The field sheet that is written on with a pen: as a page to print, and as plain text.

#include "padwalk/report/layout.hpp"
#include "padwalk/visit/sheet_form.hpp"

namespace padwalk::report
{

/// One HTML file that stands alone, no script, nothing fetched: for Letter and A4, two columns, boxes of 8 mm,
/// property, date and page number on each page; one column on a phone. Every text of the visit is escaped, for the page
/// and for its style alike.
[[nodiscard]] std::string sheet_html(visit::SheetForm const& form, Layout const& layout);

/// The same in 80 columns, for a terminal or a plain printer.
[[nodiscard]] std::string sheet_text(visit::SheetForm const& form);

} // namespace padwalk::report
