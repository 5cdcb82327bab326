#pragma once
/// The drawings of loops as a page shows them, and what stands on them.

#include "padwalk/report/html.hpp"
#include "report/layout.hpp"
#include "report/loop_sample.hpp"
#include "report/svg_reader.hpp"

namespace padwalk::tests
{

inline std::vector<std::string> drawn(std::vector<assess::LoopEntry> loops, units::System system = units::System::us)
{
    auto const model = sample_model();
    return drawings_of(report::as_html(with_loops(model, std::move(loops)), system, tests::layout()));
}

inline std::vector<Element> read(std::string const& svg)
{
    return XmlReader(svg).elements();
}

inline std::string all_words(std::string const& svg)
{
    std::string out;
    for (auto const& element : read(svg))
        if (element.name == "text")
            out += element.text + " ";
    for (std::size_t at = out.find("\u00a0"); at != std::string::npos; at = out.find("\u00a0", at))
        out.replace(at, 2, " ");
    return out;
}

inline std::size_t count_kind(std::vector<Element> const& drawing, std::string const& name, std::string const& kind)
{
    return static_cast<std::size_t>(
        std::count_if(drawing.begin(), drawing.end(), [&](Element const& e) { return e.name == name && e.is(kind); }));
}

} // namespace padwalk::tests
