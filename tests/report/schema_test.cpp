#include "catch_compat.hpp"

#include "padwalk/report/json.hpp"
#include "padwalk/report/schema.hpp"
#include "padwalk/visit/visit.hpp"
#include "report/sample.hpp"

#include <nlohmann/json.hpp>

#include <regex>

using namespace padwalk;
using Json = nlohmann::ordered_json;

namespace
{

Json schema()
{
    return Json::parse(report::json_of(report::json_schema(visit::Visit::declaration().shape()), true));
}

bool is_type(Json const& value, std::string const& type)
{
    return type == "object"    ? value.is_object()
           : type == "array"   ? value.is_array()
           : type == "string"  ? value.is_string()
           : type == "number"  ? value.is_number()
           : type == "boolean" ? value.is_boolean()
                               : type == "null" && value.is_null();
}

// The keywords that our schemas use, by the text of JSON Schema draft 2020-12 (core 8.2.3.1, 10.2, 10.3;
// validation 6.1, 6.3.3, 6.5.3).
bool accepts(Json const& root, Json const& schema, Json const& value)
{
    auto any_of = [&](Json const& list)
    { return std::count_if(list.begin(), list.end(), [&](Json const& s) { return accepts(root, s, value); }); };
    if (schema.contains("$ref") &&
        !accepts(root, root.at(Json::json_pointer(schema["$ref"].get<std::string>().substr(1))), value))
        return false;
    if (schema.contains("type"))
    {
        Json const types = schema["type"].is_array() ? schema["type"] : Json::array({schema["type"]});
        if (std::none_of(types.begin(), types.end(), [&](Json const& t) { return is_type(value, t); }))
            return false;
    }
    if (schema.contains("enum") &&
        std::find(schema["enum"].begin(), schema["enum"].end(), value) == schema["enum"].end())
        return false;
    if (schema.contains("pattern") && value.is_string() &&
        !std::regex_search(value.get<std::string>(), std::regex(schema["pattern"].get<std::string>())))
        return false;
    if ((schema.contains("anyOf") && any_of(schema["anyOf"]) == 0) ||
        (schema.contains("oneOf") && any_of(schema["oneOf"]) != 1))
        return false;
    if (schema.contains("items") && value.is_array())
        for (auto const& item : value)
            if (!accepts(root, schema["items"], item))
                return false;
    if (!value.is_object())
        return true;
    for (auto const& name : schema.value("required", Json::array()))
        if (!value.contains(name.get<std::string>()))
            return false;
    for (auto const& [key, item] : value.items())
    {
        bool const known = schema.contains("properties") && schema["properties"].contains(key);
        Json const rule = known ? schema["properties"][key] : schema.value("additionalProperties", Json(true));
        if (rule.is_boolean() ? !rule.get<bool>() : !accepts(root, rule, item))
            return false;
    }
    return true;
}

bool accepts(std::string const& text)
{
    static Json const root = schema();
    return accepts(root, root, Json::parse(text));
}

template <class Each> void each_object(Json const& value, Each each)
{
    if (value.is_object())
        each(value);
    if (value.is_structured())
        for (auto const& child : value)
            each_object(child, each);
}

void each_field(fields::RecordShape const& shape, std::vector<fields::RecordShape const*>& met,
                std::vector<fields::FieldShape>& out)
{
    if (std::find(met.begin(), met.end(), &shape) != met.end())
        return;
    met.push_back(&shape);
    for (auto const& field : shape.fields)
    {
        out.push_back(field);
        if (field.inner != nullptr)
            each_field(*field.inner(), met, out);
    }
}

} // namespace

TEST_CASE("the schema is one document whose references all lead somewhere", "[report][schema]")
{
    auto const root = schema();
    CHECK(root["$schema"] == "https://json-schema.org/draft/2020-12/schema");
    CHECK(root["title"] == "visit");
    CHECK(root["type"] == "object");
    CHECK(root["additionalProperties"] == false);
    std::size_t references = 0;
    each_object(root,
                [&](Json const& object)
                {
                    if (!object.contains("$ref"))
                        return;
                    ++references;
                    INFO(object["$ref"]);
                    CHECK(root.contains(Json::json_pointer(object["$ref"].get<std::string>().substr(1))));
                });
    CHECK(references > 30);
    CHECK(root["$defs"].size() >= 20); // each record once, however often it is used
    CHECK(root["$defs"].contains("pump"));
    CHECK(root["$defs"]["not_tested"]["required"] == Json({"what", "because"}));
    CHECK(root["properties"]["by"]["anyOf"][0]["enum"] == Json({"inspector", "technician", "owner"}));
}

TEST_CASE("every declared field is explained in the schema and takes its own example", "[report][schema]")
{
    auto const root = schema();
    std::vector<fields::RecordShape const*> met;
    std::vector<fields::FieldShape> fields;
    each_field(visit::Visit::declaration().shape(), met, fields);
    std::vector<Json> properties;
    each_object(root,
                [&](Json const& object)
                {
                    if (object.contains("properties"))
                        for (auto const& [name, property] : object["properties"].items())
                            properties.push_back(Json{{"name", name}, {"schema", property}});
                });
    CHECK(properties.size() == fields.size());
    for (auto const& field : fields)
    {
        auto const found =
            std::find_if(properties.begin(), properties.end(),
                         [&](Json const& p) {
                             return p["name"] == field.name &&
                                    p["schema"]["description"].get<std::string>().find(field.meaning) == 0;
                         });
        INFO(field.name);
        REQUIRE(found != properties.end());
        CHECK(accepts(root, (*found)["schema"], nullptr));
        bool const scalar =
            field.form == fields::FieldShape::Form::quantity || field.form == fields::FieldShape::Form::moment;
        if (scalar)
        {
            CHECK(accepts(root, (*found)["schema"], field.sample()));
            CHECK((*found)["schema"]["examples"][0] == field.sample());
        }
    }
}

TEST_CASE("readings as people write them pass the schema's pattern", "[report][schema]")
{
    auto gauge = [](std::string const& text)
    { return accepts(R"({"loops": {"a": {"filter": {"gauge": )" + text + "}}}}"); };
    for (auto const* text :
         {"\"18 psi\"", "\"18 psi ± 1 psi\"", "\"18 ± 1 psi\"", "\"18 +/- 1 psi\"", "\"-6 inHg\"", "\"−6 inHg\"",
          "\"18psi\"", "\"1,000 Pa\"", "\"1.5e3 Pa\"", "\".5 bar\"", "\"45 psi ± 5 %\"", "null"})
    {
        INFO(text);
        CHECK(gauge(text));
    }
    for (auto const* text : {"42", "\"42\"", "\"psi\"", "\"about 18 psi\"", "true", "[]", "\"\""})
    {
        INFO(text);
        CHECK_FALSE(gauge(text));
    }
    auto drop = [](std::string const& text)
    { return accepts(R"({"waters": {"a": {"bucket_test": {"pool_drop": )" + text + "}}}}"); };
    for (auto const* text : {"\"3/4 in\"", "\"1 1/2 in\"", "\"1-1/2 in\"", "\"½ in\"", "\"1½ in\"", "\"1 ft 6 in\"",
                             "\"0.5\\\"\"", "\"3'\""})
    {
        INFO(text);
        CHECK(drop(text));
    }
    auto ph = [](std::string const& text)
    { return accepts(R"({"waters": {"a": {"tests": [{"ph": )" + text + "}]}}}"); };
    CHECK(ph("7.5"));
    CHECK(ph("\"7.5\""));
    CHECK(ph("\"7.5 ± 0.2\""));
    CHECK_FALSE(ph("\"high\""));
    CHECK_FALSE(ph("true"));
}

TEST_CASE("a visit passes the schema, and its slips do not", "[report][schema]")
{
    CHECK(accepts(
        R"({"by": "inspector", "on": "2026-05-14 10:30", "property": 12, "humidity": 0.4, "freezing_winters": true, "wind": null,
        "waters": {"spa": {"kind": "spa", "tests": [{"kit": "drops", "ph": 7.5}], "shell": {"cracks": [{"width": "0.4 mm"}]}}, "pool": null},
        "loops": {"spa loop": {"serves": ["spa"], "pump": {"noticed": ["grinding noise", {"not_seen": "bubbles"}], "curve": "0 gpm:80 ft, 40 gpm:68 ft"},
                  "valves": {"return": "open", "drain": {"position": "part_open", "where": "pad"}}, "suction": {"fittings": {"elbow_90": 4}}}},
        "heaters": {"heater": {"vent": {"clearances": {"opening_beside": "3 ft"}}}},
        "not_tested": [{"what": "heater", "because": "gas was off"}], "photos": ["a.jpg", {"file": "b.jpg"}]})"));
    CHECK_FALSE(accepts(R"({"loop": {}})"));
    CHECK_FALSE(accepts(R"({"by": "neighbour"})"));
    CHECK_FALSE(accepts(R"({"on": "yesterday"})"));
    CHECK_FALSE(accepts(R"({"freezing_winters": "maybe"})"));
    CHECK_FALSE(accepts(R"({"loops": {"a": {"pump": {"noise": 1}}}})"));
    CHECK_FALSE(accepts(R"({"loops": {"a": {"serves": "spa"}}})"));
    CHECK_FALSE(accepts(R"({"loops": {"a": {"valves": {"return": "ajar"}}}})"));
    CHECK_FALSE(accepts(R"({"not_tested": [{"what": "heater"}]})"));
    CHECK_FALSE(accepts(R"({"heaters": {"heater": {"vent": {"clearances": {"opening_beside": 3}}}}})"));
}

TEST_CASE("a schema of a record alone holds its defaults", "[report][schema]")
{
    auto const root = Json::parse(report::json_of(report::json_schema(tests::TurnoverIn::declaration().shape()), true));
    CHECK(root["required"] == Json({"volume", "flow"}));
    CHECK_FALSE(root.contains("$defs"));
    CHECK(root["properties"]["share"]["description"].get<std::string>().find(
              "Left out: 100 %, because one water on the loop is usual.") != std::string::npos);
}
