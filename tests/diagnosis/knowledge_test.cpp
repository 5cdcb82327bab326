#include "catch_compat.hpp"
#include "padwalk/diagnosis/knowledge.hpp"

using namespace padwalk;

TEST_CASE("the built-in knowledge holds together", "[diagnosis][knowledge]")
{
    auto const data = reference::Data::built_in();
    diagnosis::Knowledge knowledge;
    try
    {
        knowledge = diagnosis::read_knowledge(data);
    }
    catch (reference::DataProblems const& bad)
    {
        for (auto const& p : bad.problems)
            FAIL_CHECK(bad.file << ":" << p.place.line << ":" << p.place.column << ": " << p.message);
        throw;
    }
    for (auto const& line : diagnosis::knowledge_problems(knowledge, reference::bibliography(data)))
        FAIL_CHECK(line);
    CHECK(knowledge.causes.size() >= 60);
    CHECK(knowledge.findings.size() >= 120);
    CHECK(knowledge.checks.size() >= 10);
    CHECK(knowledge.trades.size() >= 5);
}
