// The whole set of documents of each scenario, photos aside: milliseconds, and as a share of what the assessment
// itself takes in the same run. The median of repeated sets; the templates are read once before.
#include "padwalk/assess/water_sheet.hpp"
#include "padwalk/report/documents.hpp"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>

using namespace padwalk;

namespace
{

constexpr std::size_t times = 21;

template <class Call> double median_ms(std::size_t repeats, Call const& call)
{
    std::vector<double> took;
    for (std::size_t i = 0; i < repeats; ++i)
    {
        auto const start = std::chrono::steady_clock::now();
        call();
        took.push_back(std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count());
    }
    std::nth_element(took.begin(), took.begin() + static_cast<std::ptrdiff_t>(repeats / 2), took.end());
    return took[repeats / 2];
}

std::string text_of_file(std::filesystem::path const& path)
{
    std::ostringstream text;
    text << std::ifstream(path, std::ios::binary).rdbuf();
    return text.str();
}

} // namespace

int main()
{
    assess::Engine const engine(reference::Data::built_in());
    report::Layout const layout(engine.data());
    std::printf("reading templates and words: %.1f ms\n",
                median_ms(times, [&] { static_cast<void>(report::Layout(engine.data())); }));
    std::printf("%-36s %10s %12s %12s %8s\n", "scenario", "documents", "kB", "set, ms", "/assess");
    for (auto const& entry : std::filesystem::directory_iterator(std::string(PADWALK_SOURCE_FOLDER) + "/scenarios"))
    {
        if (!std::filesystem::exists(entry.path() / "visit.yaml"))
            continue;
        auto const read = visit::read_visit(text_of_file(entry.path() / "visit.yaml"), engine.instruments());
        auto const report = assess::assess_water(read, engine);
        double const assessing = median_ms(5, [&] { static_cast<void>(assess::assess_water(read, engine)); });
        std::size_t bytes = 0, count = 0;
        double const set = median_ms(times,
                                     [&]
                                     {
                                         auto const all = report::documents(report, layout, {});
                                         count = all.size();
                                         bytes = 0;
                                         for (auto const& document : all)
                                             bytes += document.html.size();
                                     });
        std::printf("%-36s %10zu %12.0f %12.1f %8.2f\n", entry.path().filename().string().c_str(), count,
                    static_cast<double>(bytes) / 1000, set, set / assessing);
    }
    return 0;
}
