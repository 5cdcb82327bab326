#include "catch_compat.hpp"
#include "padwalk/reference/sources.hpp"
#include "padwalk/visit/visit.hpp"

using namespace padwalk;
using fields::FieldShape;
using fields::Tree;

namespace
{

std::string indent(int depth)
{
    return std::string(static_cast<std::size_t>(2 * depth), ' ');
}

// A visit file with every field of a record, from the declarations alone: each value is the field's own example.
std::string full(fields::RecordShape const& record, int depth)
{
    std::string out;
    for (auto const& field : record.fields)
    {
        out += indent(depth) + field.name + ":";
        bool const list_of_records = field.form == FieldShape::Form::list && field.inner != nullptr;
        if (field.name == "loop" || field.name == "fills")
            out += " one\n";
        else if (field.name == "serves")
            out += " [one]\n";
        else if (list_of_records)
        {
            std::string inner = full(*field.inner(), depth + 2);
            inner.replace(static_cast<std::size_t>(2 * depth) + 2, 1, "-");
            out += "\n" + inner;
        }
        else if (field.form == FieldShape::Form::named && field.inner != nullptr)
            out += "\n" + indent(depth + 1) + "one:\n" + full(*field.inner(), depth + 2);
        else if (field.form == FieldShape::Form::named || field.form == FieldShape::Form::list)
            out += " " + field.sample() + "\n";
        else if (field.form == FieldShape::Form::record)
            out += "\n" + full(*field.inner(), depth + 1);
        else
            out += " " + field.sample() + "\n";
    }
    return out;
}

// Whether every field of the record stands in the tree that was written from it.
void all_there(fields::RecordShape const& record, Tree const& tree, std::string const& path)
{
    auto const* map = std::get_if<Tree::Map>(&tree.value());
    REQUIRE(map != nullptr);
    for (auto const& field : record.fields)
    {
        std::string const here = path + "/" + field.name;
        INFO(here);
        auto const found =
            std::find_if(map->begin(), map->end(), [&](auto const& entry) { return entry.first == field.name; });
        REQUIRE(found != map->end());
        if (field.inner == nullptr)
            continue;
        if (field.form == FieldShape::Form::record)
            all_there(*field.inner(), found->second, here);
        else if (field.form == FieldShape::Form::list)
            all_there(*field.inner(), std::get<Tree::List>(found->second.value()).at(0), here);
        else
            all_there(*field.inner(), std::get<Tree::Map>(found->second.value()).at(0).second, here);
    }
}

} // namespace

TEST_CASE("a file with every field is read, every field of it", "[visit]")
{
    std::string const text = full(visit::Visit::declaration().shape(), 0);
    INFO(text);
    visit::ReadVisit read;
    try
    {
        read = visit::read_visit(text, reference::instruments(reference::Data::built_in()));
    }
    catch (fields::InputProblems const& bad)
    {
        FAIL(fields::as_text(bad.list(), "full.yaml", text));
    }
    CHECK(read.oddities.empty());
    CHECK(read.blanks.empty());
    all_there(visit::Visit::declaration().shape(), visit::Visit::declaration().write(read.visit), "");
}
