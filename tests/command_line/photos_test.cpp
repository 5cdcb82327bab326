// The pictures that a visit names: found beside its file, or said why not. Nothing is read from elsewhere.

#include "catch_compat.hpp"
#include "disk.hpp"
#include "photos.hpp"
#include "run_program.hpp"

#include <filesystem>
#include <sys/stat.h>
#include <unistd.h>

using namespace padwalk;
namespace fs = std::filesystem;

namespace
{

std::string picture(std::string const& name)
{
    return tests::text_of_file(std::string(PADWALK_SOURCE_FOLDER) + "/tests/photos/pictures/" + name);
}

assess::Assessment with_photos(std::vector<std::string> const& files)
{
    assess::Assessment out;
    out.items.resize(2);
    for (auto const& file : files)
        out.items[out.items[0].photos.empty() ? 0 : 1].photos.push_back({file, "what it shows"});
    return out;
}

/// With files in memory; what was asked for by name is in `asked`.
report::Photos photos_of(std::vector<std::string> const& named, std::string const& visit_path,
                         std::map<std::string, std::string> files, std::vector<std::string>* asked = nullptr)
{
    std::istringstream in;
    std::ostringstream out, err;
    auto world = tests::world_of(in, out, err, files);
    world.read_bytes = [read = world.read_bytes, asked](std::string const& path)
    {
        if (asked != nullptr)
            asked->push_back(path);
        return read(path);
    };
    auto shown = command_line::embedded_photos(with_photos(named), visit_path, world);
    CHECK(out.str().empty());
    CHECK(err.str().empty());
    return shown;
}

constexpr auto outside = "lies outside the visit's folder; copy it beside the visit file";

/// A folder on the disk that is gone afterwards.
struct Folder
{
    fs::path path = fs::temp_directory_path() / ("padwalk-photos-" + std::to_string(::getpid()));
    Folder() { fs::create_directories(path / "visit" / "photos"); }
    ~Folder() { fs::remove_all(path); }
    Folder(Folder const&) = delete;
    Folder& operator=(Folder const&) = delete;
    void put(std::string const& name, std::string const& bytes) const
    {
        std::ofstream(path / name, std::ios::binary) << bytes;
    }
};

report::Photos on_disk(std::vector<std::string> const& named, fs::path const& visit)
{
    std::istringstream in;
    std::ostringstream out, err;
    std::map<std::string, std::string> none;
    auto world = tests::world_of(in, out, err, none);
    world.read_bytes = command_line::read_bytes;
    world.real_path = command_line::real_path;
    return command_line::embedded_photos(with_photos(named), visit.string(), world);
}

} // namespace

TEST_CASE("photos: each picture beside the visit is shown, the others have their words")
{
    auto const jpeg = picture("turned_6.jpg");
    auto const shown =
        photos_of({"photos/pad.jpg", "gone.jpg", "empty.jpg", "plan.pdf", "photos/./half.jpg"}, "a/visit.yaml",
                  {{"a/photos/pad.jpg", jpeg},
                   {"a/empty.jpg", ""},
                   {"a/plan.pdf", "%PDF-1.4"},
                   {"a/photos/half.jpg", jpeg.substr(0, jpeg.size() - 40)}});
    REQUIRE(shown.size() == 5);
    auto const& pad = shown.at("photos/pad.jpg");
    CHECK(pad.data_uri.substr(0, 27) == "data:image/jpeg;base64,/9j/"); // FF D8 FF, as every JPEG begins
    CHECK(pad.width == 48);
    CHECK(pad.height == 32);
    CHECK(pad.why_not.empty());
    CHECK(pad.remark.empty());
    CHECK(shown.at("gone.jpg").why_not == "is not there");
    CHECK(shown.at("gone.jpg").data_uri.empty());
    CHECK(shown.at("empty.jpg").why_not == "is empty");
    CHECK(shown.at("plan.pdf").why_not == "is no picture that can be read (it begins like a PDF)");
    CHECK(shown.at("photos/./half.jpg").remark == "ends early: part of it may be missing");
    CHECK_FALSE(shown.at("photos/./half.jpg").data_uri.empty());
}

TEST_CASE("photos: a visit in the folder where the program runs, or from standard input, looks beside itself")
{
    for (auto const* visit : {"visit.yaml", "-", "./visit.yaml"})
        CHECK(photos_of({"pad.jpg"}, visit, {{"pad.jpg", picture("grey.jpg")}}).at("pad.jpg").width == 48);
}

TEST_CASE("photos: what lies outside the visit's folder by its name is never asked for")
{
    std::vector<std::string> asked;
    auto const jpeg = picture("grey.jpg");
    auto const shown =
        photos_of({"/home/other/a.jpg", "../a.jpg", "photos/../../a.jpg", "..", std::string("a.jpg\0.png", 10), ""},
                  "home/visit.yaml", {{"/home/other/a.jpg", jpeg}, {"a.jpg", jpeg}}, &asked);
    CHECK(asked.empty());
    CHECK(shown.at("/home/other/a.jpg").why_not == outside);
    CHECK(shown.at("../a.jpg").why_not == outside);
    CHECK(shown.at("photos/../../a.jpg").why_not == outside);
    CHECK(shown.at("..").why_not == outside);
    CHECK(shown.at("").why_not == "is no name of a file");
    CHECK(shown.at(std::string("a.jpg\0.png", 10)).why_not == "is no name of a file");
    CHECK(photos_of({"photos/../a.jpg"}, "home/visit.yaml", {{"home/a.jpg", jpeg}}).at("photos/../a.jpg").width == 48);
}

TEST_CASE("photos: a picture named at two items is read once")
{
    std::vector<std::string> asked;
    auto const shown = photos_of({"a.jpg", "a.jpg"}, "visit.yaml", {{"a.jpg", picture("grey.jpg")}}, &asked);
    CHECK(shown.size() == 1);
    CHECK(asked.size() == 1);
}

TEST_CASE("photos: whatever a World throws, the report goes on, and says nothing of where files lie")
{
    std::istringstream in;
    std::ostringstream out, err;
    std::map<std::string, std::string> none;
    auto world = tests::world_of(in, out, err, none);
    world.read_bytes = [](std::string const&) -> std::string
    { throw command_line::FileProblem("'/home/someone/secret/a.jpg' has a cold"); };
    CHECK(command_line::embedded_photos(with_photos({"a.jpg"}), "v.yaml", world).at("a.jpg").why_not ==
          "can't be read");
    world.read_bytes = [](std::string const&) -> std::string { throw std::bad_alloc(); };
    CHECK(command_line::embedded_photos(with_photos({"a.jpg"}), "v.yaml", world).at("a.jpg").why_not ==
          "is too large for this machine's memory");
    world.real_path = [](std::string const&) -> std::string { throw std::runtime_error("no"); };
    CHECK(command_line::embedded_photos(with_photos({"a.jpg"}), "v.yaml", world).at("a.jpg").why_not ==
          "can't be read");
}

TEST_CASE("photos: on a disk, links that lead out of the visit's folder are not followed, those within are")
{
    Folder const folder;
    auto const jpeg = picture("grey.jpg");
    folder.put("private.jpg", jpeg);
    folder.put("visit/photos/pad.jpg", jpeg);
    fs::create_symlink("../private.jpg", folder.path / "visit" / "link.jpg");
    fs::create_symlink("photos/pad.jpg", folder.path / "visit" / "within.jpg");
    fs::create_directory_symlink("..", folder.path / "visit" / "up");
    fs::create_symlink("round.jpg", folder.path / "visit" / "round.jpg");
    fs::create_directory(folder.path / "visit-of-others");
    folder.put("visit-of-others/a.jpg", jpeg);
    fs::create_symlink("../visit-of-others/a.jpg", folder.path / "visit" / "beside.jpg");
    REQUIRE(::mkfifo((folder.path / "visit" / "pipe.jpg").c_str(), 0600) == 0);
    auto const shown = on_disk({"photos/pad.jpg", "link.jpg", "within.jpg", "up/private.jpg", "round.jpg", "beside.jpg",
                                "pipe.jpg", "photos", "gone/further/a.jpg"},
                               folder.path / "visit" / "visit.yaml");
    CHECK(shown.at("photos/pad.jpg").width == 48);
    CHECK(shown.at("within.jpg").width == 48);
    CHECK(shown.at("link.jpg").why_not == outside);
    CHECK(shown.at("up/private.jpg").why_not == outside);
    CHECK(shown.at("beside.jpg").why_not == outside);
    CHECK(shown.at("round.jpg").data_uri.empty());
    CHECK(shown.at("round.jpg").why_not == "can't be followed");
    CHECK(shown.at("pipe.jpg").why_not == "is no file of the usual kind");
    CHECK(shown.at("photos").why_not == "is a folder");
    CHECK(shown.at("gone/further/a.jpg").why_not == "is not there");
}

TEST_CASE("photos: a visit's folder that is itself reached by a link is its folder")
{
    Folder const folder;
    folder.put("visit/photos/pad.jpg", picture("grey.jpg"));
    fs::create_directory_symlink("visit", folder.path / "today");
    CHECK(on_disk({"photos/pad.jpg"}, folder.path / "today" / "visit.yaml").at("photos/pad.jpg").width == 48);
}

TEST_CASE("photos: a file above 50 MB is not read")
{
    Folder const folder;
    folder.put("visit/long.jpg", "x");
    fs::resize_file(folder.path / "visit" / "long.jpg", 50'000'001);
    CHECK(on_disk({"long.jpg"}, folder.path / "visit" / "visit.yaml").at("long.jpg").why_not == "is larger than 50 MB");
    fs::resize_file(folder.path / "visit" / "long.jpg", 45'000'000);
    CHECK(on_disk({"long.jpg"}, folder.path / "visit" / "visit.yaml").at("long.jpg").why_not ==
          "is larger than 40 MB; save it smaller");
}
