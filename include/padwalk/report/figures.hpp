#pragma once
/// The catalogue of figures and single figures, as text and as trees for JSON.

#include "padwalk/fields/tree.hpp"
#include "padwalk/figures/catalogue.hpp"
#include "padwalk/figures/figure.hpp"
#include "padwalk/reference/sources.hpp"

#include <functional>
#include <map>

namespace padwalk::report
{

/// The sentence of a caution by its id; empty for an id that is not known.
using CautionLookup = std::function<std::string(std::string_view id)>;

/// Name and title of every model, in the catalogue's order.
[[nodiscard]] std::string figure_list(figures::Catalogue const& catalogue, std::size_t columns = 80);

/// The same: [{"figure": name, "title"}].
[[nodiscard]] fields::Tree figure_list_tree(figures::Catalogue const& catalogue);

/// What a model needs, gives, computes, where it holds and what it rests on.
[[nodiscard]] std::string figure_about(figures::Model const& model,
                                       std::map<std::string, reference::Source> const& bibliography,
                                       CautionLookup const& caution, units::System system, std::size_t columns = 80);

/// The inputs that were used, assumed ones marked, and the outputs with their intervals.
[[nodiscard]] std::string figure_text(figures::Figure const& figure, units::System system, std::size_t columns = 80,
                                      CautionLookup const& caution = {});

/// {"figure": name, "outputs": {name: {"value", "unit", "basis", "low", "high"} or words}, "assumed": {name: words},
/// "note"} or {"figure": name, "error": {"message"}} where it was not computed.
///
/// The unit of an output is always the same in one system, so that a column of results can be summed: the field's own,
/// else the last of its measure's print list. Pure numbers have no "unit", only concentrations have a "basis".
[[nodiscard]] fields::Tree figure_tree(figures::Figure const& figure, units::System system);

/// {"figure": name, "error": {"message", "field", "advice", "problems": [{"message", "field", "advice", "column"}]}};
/// the message before the problems is the first one's, in short.
[[nodiscard]] fields::Tree error_tree(std::string_view figure, fields::InputProblems const& problems);

/// The unit that `figure_tree` and `as_json` use for a field; empty for pure numbers.
[[nodiscard]] std::string_view stable_unit(fields::FieldShape const& field, units::System system);

} // namespace padwalk::report
