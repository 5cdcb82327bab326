#pragma once
/// A JSON Schema from a declaration, for editors that complete and explain a visit file while it is typed.

#include "padwalk/fields/shape.hpp"
#include "padwalk/fields/tree.hpp"

namespace padwalk::report
{

/// JSON Schema draft 2020-12 of a record, each inner record once under "$defs".
///
/// It is wider than the reader in that it knows no ranges and takes any unit, and narrower in that it offers one
/// spelling of each key and choice where the reader takes several ('not seen', 'Yes'). The reader has the last word.
[[nodiscard]] fields::Tree json_schema(fields::RecordShape const& record);

} // namespace padwalk::report
