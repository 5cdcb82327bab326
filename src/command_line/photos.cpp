#include "photos.hpp"

#include "padwalk/photos/base64.hpp"
#include "padwalk/photos/photo.hpp"

#include <algorithm>
#include <exception>
#include <filesystem>

namespace padwalk::command_line
{
namespace
{

namespace fs = std::filesystem;

constexpr auto outside = "lies outside the visit's folder; copy it beside the visit file";

report::PhotoShown not_shown(std::string why)
{
    report::PhotoShown out;
    out.why_not = std::move(why);
    return out;
}

/// Whether a path, both without '.', '..' and links, is the folder or below it.
bool is_within(fs::path const& path, fs::path const& folder)
{
    auto const differ = std::mismatch(folder.begin(), folder.end(), path.begin(), path.end());
    return differ.first == folder.end();
}

bool leads_out_by_name(fs::path const& file)
{
    auto const normal = file.lexically_normal();
    return file.has_root_path() || (!normal.empty() && *normal.begin() == "..");
}

/// What a message says of a file, without where it lies on this machine: a report goes to others.
std::string without_path(std::string const& message, std::string const& path)
{
    std::string const start = "'" + path + "' ";
    return message.compare(0, start.size(), start) == 0 ? message.substr(start.size()) : "can't be read";
}

report::PhotoShown shown(std::string const& file, fs::path const& folder, World& world)
{
    // A name with a zero byte in it ends there for the system, and so is another name than the one judged here.
    if (file.empty() || file.find('\0') != std::string::npos)
        return not_shown("is no name of a file");
    if (leads_out_by_name(file))
        return not_shown(outside);
    std::string path = (folder / file).string(), bytes;
    try
    {
        auto const real = world.real_path(path);
        if (!is_within(real, world.real_path(folder.string())))
            return not_shown(outside);
        path = real;
        bytes = world.read_bytes(path);
    }
    catch (FileProblem const& problem)
    {
        return not_shown(without_path(problem.what(), path));
    }
    auto const result = photos::embedded(bytes);
    if (auto const* refused = std::get_if<photos::PhotoRefused>(&result))
        return not_shown(refused->why);
    auto const& photo = std::get<photos::EmbeddedPhoto>(result);
    return {
        "data:" + photo.type + ";base64," + photos::base64(photo.bytes), photo.width, photo.height, {}, photo.remark};
}

} // namespace

report::Photos embedded_photos(assess::Assessment const& assessment, std::string const& visit_path, World& world)
{
    fs::path folder = fs::path(visit_path).parent_path();
    if (folder.empty())
        folder = ".";
    report::Photos out;
    for (auto const& item : assessment.items)
        for (auto const& photo : item.photos)
        {
            auto const [at, is_new] = out.try_emplace(photo.file);
            if (!is_new)
                continue;
            try
            {
                at->second = shown(photo.file, folder, world);
            }
            catch (std::bad_alloc const&)
            {
                at->second = not_shown("is too large for this machine's memory");
            }
            catch (std::exception const&)
            {
                at->second = not_shown("can't be read");
            }
        }
    return out;
}

} // namespace padwalk::command_line
