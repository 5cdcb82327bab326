// Build tool: packs the files of data/ into one C++ file, so that the program needs no files beside it and starts
// without parsing YAML. A data file that is not plain YAML stops the build, with its line. Templates and style sheets
// go in as they are.
//
// usage: embed_data DATA_FOLDER OUTPUT.cpp

#include "padwalk/reference/data.hpp"
#include "padwalk/reference/yaml.hpp"

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <sstream>

namespace
{

std::string as_literal(std::string const& bytes)
{
    std::string out = "\"";
    for (std::size_t i = 0; i < bytes.size(); ++i)
    {
        auto const c = static_cast<unsigned char>(bytes[i]);
        if (i > 0 && i % 4000 == 0)
            out += "\"\n        \""; // compilers limit the length of one piece
        if (c == '"' || c == '\\')
            out += std::string("\\") + static_cast<char>(c);
        else if (c < 0x20 || c >= 0x7f || c == '?')
        {
            char buffer[8];
            std::snprintf(buffer, sizeof buffer, "\\%03o", c);
            out += buffer;
        }
        else
            out += static_cast<char>(c);
    }
    return out + "\"";
}

std::string text_of(std::filesystem::path const& path)
{
    std::ifstream stream(path, std::ios::binary);
    std::ostringstream text;
    text << stream.rdbuf();
    return text.str();
}

} // namespace

int main(int count, char** arguments)
{
    using namespace padwalk;
    if (count != 3)
    {
        std::cerr << "usage: embed_data DATA_FOLDER OUTPUT.cpp\n";
        return 2;
    }
    std::filesystem::path const folder = arguments[1];
    std::vector<std::filesystem::path> files;
    for (auto const& entry : std::filesystem::recursive_directory_iterator(folder))
        if (reference::is_data_file(entry.path().generic_string()))
            files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    std::string list;
    for (auto const& path : files)
    {
        std::string const text = text_of(path);
        try
        {
            std::string const packed = reference::pack(reference::tree_of_file(path.generic_string(), text));
            list += "        {\"" + std::filesystem::relative(path, folder).generic_string() + "\", std::string_view(" +
                    as_literal(packed) + ", " + std::to_string(packed.size()) + ")},\n";
        }
        catch (fields::InputProblems const& bad)
        {
            std::cerr << fields::as_text(bad.list(), path.string(), text);
            return 1;
        }
    }
    std::ofstream out(arguments[2], std::ios::binary);
    out << "// Made by embed_data from the files of data/.\n"
           "// The standard asks compilers for 65,536 characters in a literal; those in use take far more.\n"
           "#pragma GCC diagnostic ignored \"-Woverlength-strings\"\n#include \"built_in.hpp\"\n\nnamespace "
           "padwalk::reference\n{\n\n"
           "std::vector<std::pair<std::string_view, std::string_view>> const& built_in_files()\n{\n"
           "    static std::vector<std::pair<std::string_view, std::string_view>> const files{\n"
        << list << "    };\n    return files;\n}\n\n} // namespace padwalk::reference\n";
    out.close();
    return out ? 0 : 1;
}
