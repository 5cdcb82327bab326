#include "padwalk/reference/data.hpp"
#include "padwalk/reference/yaml.hpp"

namespace padwalk::reference
{

bool is_data_file(std::string_view path)
{
    return path.ends_with(".yaml") || path.ends_with(".html") || path.ends_with(".css");
}

fields::Node tree_of_file(std::string_view path, std::string const& text)
{
    return path.ends_with(".yaml") ? read_yaml(text) : fields::Node::scalar(text);
}

} // namespace padwalk::reference
