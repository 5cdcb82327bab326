#pragma once
/// A visit file to fill in, made from the declarations.

#include <string>
#include <vector>

namespace padwalk::visit
{

/// The parts that a sheet can hold, in the order of a walk.
[[nodiscard]] std::vector<std::string> sheet_parts();

/// A visit file with blank values and, beside each, what it means and an example. As printed it is itself a valid
/// visit in which nothing was tested. With no parts, all of them.
///
/// Throws: std::invalid_argument for an unknown part, naming those there are
[[nodiscard]] std::string field_sheet(std::vector<std::string> const& parts);

} // namespace padwalk::visit
