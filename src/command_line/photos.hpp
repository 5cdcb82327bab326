#pragma once
// The pictures that a visit names, read from beside its file and made small.

#include "padwalk/assess/assessment.hpp"
#include "padwalk/command_line/program.hpp"
#include "padwalk/report/photos.hpp"

namespace padwalk::command_line
{

/// Each picture of each item, once. A picture is looked for from the folder of the visit file ('-': from here) and
/// taken only from that folder or below, by its name and by where links lead: a visit file that came from someone else
/// must not bring other pictures of this machine into a report. What can't be shown has its words; nothing is thrown.
[[nodiscard]] report::Photos embedded_photos(assess::Assessment const& assessment, std::string const& visit_path,
                                             World& world);

} // namespace padwalk::command_line
