#include "padwalk/heating/constant.hpp"

namespace padwalk::heating
{

fields::Record<Constant> const& Constant::declaration()
{
    static fields::Record<Constant> const record =
        fields::Record<Constant>("constant", "a number with its source")
            .field("value", &Constant::number, "the number")
            .required()
            .field("doubt", &Constant::doubt, "one standard uncertainty, in the same unit")
            .field("meaning", &Constant::meaning, "what it is, and its unit")
            .required()
            .field("source", &Constant::source, "where it comes from")
            .required();
    return record;
}

} // namespace padwalk::heating
