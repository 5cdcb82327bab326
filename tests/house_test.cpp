// The house as it was drawn: which room may include which, and where the outside libraries may appear.

#include "catch_compat.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <sstream>
#include <string>
#include <vector>

namespace fs = std::filesystem;

namespace
{

fs::path const root = PADWALK_SOURCE_FOLDER;

std::string text_of(fs::path const& path)
{
    std::ifstream stream(path, std::ios::binary);
    REQUIRE(stream.good());
    std::ostringstream text;
    text << stream.rdbuf();
    return text.str();
}

/// The rooms that each room may include: itself and all below, from 'padwalk_room(name BELOW a b DEPENDS …)'.
std::map<std::string, std::set<std::string>> const& rooms()
{
    static auto const table = []
    {
        std::map<std::string, std::set<std::string>> out;
        std::istringstream lines(text_of(root / "CMakeLists.txt"));
        for (std::string line; std::getline(lines, line);)
        {
            std::string const start = "padwalk_room(";
            if (!line.starts_with(start))
                continue;
            std::istringstream words(line.substr(start.size(), line.find(')') - start.size()));
            std::string name, word;
            words >> name;
            auto& below = out[name];
            below.insert(name);
            bool counts = false;
            while (words >> word)
                if (word == "BELOW" || word == "DEPENDS")
                    counts = word == "BELOW";
                else if (counts)
                {
                    REQUIRE(out.count(word) == 1); // a room is listed after those below it
                    below.insert(out[word].begin(), out[word].end());
                }
        }
        return out;
    }();
    return table;
}

struct Include
{
    std::string file, room, what;
};

/// Every #include of src/ and include/padwalk/.
std::vector<Include> const& includes()
{
    static auto const list = []
    {
        std::vector<Include> out;
        for (auto const* side : {"src", "include/padwalk"})
            for (auto const& entry : fs::recursive_directory_iterator(root / side))
            {
                if (!entry.is_regular_file())
                    continue;
                fs::path const below = entry.path().lexically_relative(root / side);
                std::istringstream lines(text_of(entry.path()));
                for (std::string line; std::getline(lines, line);)
                    if (line.starts_with("#include"))
                        out.push_back(
                            {entry.path().lexically_relative(root).generic_string(), below.begin()->string(), line});
            }
        return out;
    }();
    return list;
}

std::string room_of(std::string const& include)
{
    std::string const start = "padwalk/";
    std::size_t const at = include.find(start);
    if (at == std::string::npos)
        return {};
    std::size_t const from = at + start.size();
    return include.substr(from, include.find('/', from) - from);
}

} // namespace

TEST_CASE("the plan of the house can be read", "[house]")
{
    CHECK(rooms().size() >= 14);
    CHECK(rooms().at("units") == std::set<std::string>{"units"});
    CHECK(rooms().at("reference") == std::set<std::string>{"units", "fields", "reference"});
    CHECK(includes().size() > 200);
}

TEST_CASE("a room includes only itself and rooms below it", "[house]")
{
    for (auto const& include : includes())
    {
        INFO(include.file << ": " << include.what);
        auto const room = rooms().find(include.room);
        REQUIRE(room != rooms().end());
        std::string const wanted = room_of(include.what);
        if (!wanted.empty())
            CHECK(room->second.count(wanted) == 1);
        CHECK(include.what.find("../") == std::string::npos); // no side doors
    }
}

TEST_CASE("each outside library stays in its rooms", "[house]")
{
    std::map<std::string, std::set<std::string>> const at_home{{"yaml-cpp", {"reference", "visit"}},
                                                               {"nlohmann", {"report"}},
                                                               {"CLI/", {"command_line"}},
                                                               {"<gd.h>", {"photos"}},
                                                               {"<png.h>", {"photos"}},
                                                               {"<tiffio.h>", {"photos"}},
                                                               {"libheif/", {"photos"}},
                                                               {"catch2", {}}};
    std::map<std::string, int> met;
    for (auto const& include : includes())
        for (auto const& [library, homes] : at_home)
            if (include.what.find(library) != std::string::npos)
            {
                INFO(include.file << ": " << include.what);
                CHECK(homes.count(include.room) == 1);
                ++met[library];
            }
    CHECK(met["yaml-cpp"] > 0); // the search finds what is there
}

TEST_CASE("every room stands in both places or in one, under a name that says what it does", "[house]")
{
    std::set<std::string> folders;
    for (auto const* side : {"src", "include/padwalk"})
        for (auto const& entry : fs::directory_iterator(root / side))
        {
            INFO(entry.path().lexically_relative(root).generic_string());
            CHECK(entry.is_directory());
            folders.insert(entry.path().filename().string());
        }
    for (auto const& [room, below] : rooms())
    {
        INFO("room " << room);
        CHECK(folders.count(room) == 1);
    }
    for (auto const& folder : folders)
    {
        INFO("folder " << folder);
        CHECK(rooms().count(folder) == 1);
        for (auto const* vague : {"util", "common", "core", "helper", "base"})
            CHECK(folder.find(vague) == std::string::npos);
    }
}

TEST_CASE("the top of the house holds nothing else", "[house]")
{
    std::set<std::string> const expected{"CMakeLists.txt", "README.md", "DEVELOPERS.md", "src",
                                         "include",        "data",      "tests",         "scenarios"};
    std::set<std::string> met;
    for (auto const& entry : fs::directory_iterator(root))
    {
        std::string const name = entry.path().filename().string();
        if (!name.starts_with('.') && !name.starts_with("build"))
            met.insert(name);
    }
    CHECK(met == expected);
}

TEST_CASE("every test's name reaches its own test", "[house]")
{
    // ctest hands a name over through a CMake list, which a semicolon cuts in two.
    // signs.
    std::size_t names = 0;
    for (auto const& entry : fs::recursive_directory_iterator(root / "tests"))
    {
        if (entry.path().extension() != ".cpp")
            continue;
        std::istringstream lines(text_of(entry.path()));
        std::string const start = "TEST_CASE(\"";
        for (std::string line; std::getline(lines, line);)
            if (line.starts_with(start))
            {
                ++names;
                std::string const name = line.substr(start.size(), line.find('"', start.size()) - start.size());
                INFO(entry.path().lexically_relative(root).generic_string() << ": " << name);
                CHECK(name.find(';') == std::string::npos);
            }
    }
    CHECK(names > 900);
}

TEST_CASE("the engine uses only the C++20 that its compilers share", "[house]")
{
    // What g++ 12, clang 14 or emscripten 3.1.6 (libc++ 13) lacks, or what reads numbers by the locale.
    std::vector<std::string> const missing{"std::ranges", "std::views",      "<ranges>",   "<format>",
                                           "std::format", "source_location", "from_chars", "to_chars",
                                           "bit_cast",    "std::stod",       "std::stof",  "strtod",
                                           "operator<=>", "std::jthread",    "<coroutine>"};
    std::size_t files = 0;
    for (auto const* top : {"src", "include/padwalk"})
        for (auto const& entry : fs::recursive_directory_iterator(root / top))
        {
            bool const code = entry.path().extension() == ".cpp" || entry.path().extension() == ".hpp";
            if (!code || entry.path().parent_path().filename() == "command_line")
                continue;
            ++files;
            std::string const text = text_of(entry.path());
            for (auto const& word : missing)
            {
                INFO(entry.path().string() << ": " << word);
                CHECK(text.find(word) == std::string::npos);
            }
        }
    CHECK(files > 100);
}
