#include "padwalk/numerics/number_text.hpp"

#include <locale>
#include <sstream>

namespace padwalk::numerics
{

std::string number_text(double value, int digits)
{
    std::ostringstream text;
    text.imbue(std::locale::classic());
    text.precision(digits);
    text << value;
    return text.str();
}

} // namespace padwalk::numerics
