#pragma once
/// The data tree as it stands in the source folder, for tests that don't need the compiled-in one.

#include "padwalk/reference/data.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#ifndef PADWALK_DATA_FOLDER
#error "tests that read data/ are compiled with PADWALK_DATA_FOLDER"
#endif

namespace padwalk::tests
{

/// Every data file below PADWALK_DATA_FOLDER, by its path below it. Throws reference::DataProblems for one that is no
/// YAML.
inline reference::Data data_from_folder()
{
    namespace fs = std::filesystem;
    fs::path const root = PADWALK_DATA_FOLDER;
    std::vector<std::pair<std::string, std::string>> files;
    for (auto const& entry : fs::recursive_directory_iterator(root))
    {
        if (!entry.is_regular_file() || !reference::is_data_file(entry.path().generic_string()))
            continue;
        std::ifstream stream(entry.path(), std::ios::binary);
        std::ostringstream text;
        text << stream.rdbuf();
        files.emplace_back(fs::relative(entry.path(), root).generic_string(), text.str());
    }
    std::sort(files.begin(), files.end());
    return reference::Data::from_texts(files);
}

} // namespace padwalk::tests
