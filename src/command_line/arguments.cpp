#include "arguments.hpp"

#include "padwalk/fields/node.hpp"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <array>

namespace padwalk::command_line
{
namespace
{

constexpr char const* general_help =
    "padwalk: what a walk around a pool and spa equipment pad says, and who must come\n"
    "\n"
    "usage: padwalk COMMAND [options]        VISIT is a YAML file, '-' standard input\n"
    "  assess VISIT           the main job: findings, likely causes, whom to send\n"
    "  client VISIT           the client's page: what is unsafe, what works or not\n"
    "  refer VISIT            the paper for each trade that must come (--for TRADE)\n"
    "  water VISIT|key=value  for the owner: the water, what to add, when to swim\n"
    "  documents VISIT        all of these as HTML files (--out FOLDER)\n"
    "  next VISIT             what to check next, and what each outcome changes\n"
    "  why VISIT CAUSE        one cause in full, also where it is unlikely\n"
    "  walk [VISIT]           a guided visit: asks, and writes the file\n"
    "  compare EARLIER LATER  a return visit: what changed, was confirmed, is open\n"
    "  history FOLDER         a folder of visits as a log: trends, bands, events\n"
    "  tune FOLDER            what was found, over many visits (--out FILE)\n"
    "  check VISIT            only say what is wrong with the file\n"
    "  figure [NAME [key=value …]]  list the figures, explain one, or compute it\n"
    "  sheet [VISIT] --for …  a file to fill in; for a pen with --paper or --html\n"
    "  schema                 JSON Schema of the visit file, for an editor\n"
    "options: --json; --html FILE: as one page; --force: replace what is there;\n"
    "  --units us|si: what is printed [us], both are read; --language en|es: refer, or\n"
    "  the client's cautions [en]; --days N: of the water's forecast [30]; --lines:\n"
    "  figure reads JSON lines; --data DIR in place of the built-in data; --version\n"
    "exit status: 0 nothing to refer or do, 1 something, 2 unsafe, 3 input problem\n"
    "NO_COLOR turns colour off.\n";

using C = Arguments::Command;

struct Known
{
    std::string_view name;
    C command;
};

constexpr std::array known_commands{
    Known{"assess", C::assess},       Known{"client", C::client},   Known{"refer", C::refer},  Known{"water", C::water},
    Known{"documents", C::documents}, Known{"next", C::next},       Known{"why", C::why},      Known{"walk", C::walk},
    Known{"compare", C::compare},     Known{"history", C::history}, Known{"tune", C::tune},    Known{"check", C::check},
    Known{"figure", C::figure},       Known{"sheet", C::sheet},     Known{"schema", C::schema}};

std::vector<std::string> command_names()
{
    std::vector<std::string> out;
    for (auto const& known : known_commands)
        out.emplace_back(known.name);
    return out;
}

void add_common(CLI::App& app, Arguments& out, std::string& system)
{
    app.add_option("--units", system);
    app.add_option("--data", out.data_folder);
}

// The library lists leftovers without saying what was meant.
[[noreturn]] void explain(CLI::ParseError const& e)
{
    throw UsageProblem(std::string(e.what()) + "; 'padwalk --help' lists what there is");
}

} // namespace

Arguments parse(std::vector<std::string> const& arguments)
{
    Arguments out;
    if (arguments.empty() || arguments[0] == "-h" || arguments[0] == "--help" || arguments[0] == "help")
    {
        out.help = general_help;
        return out;
    }
    if (arguments[0] == "--version")
    {
        out.command = Arguments::Command::version;
        return out;
    }
    bool const option_first = arguments[0].starts_with("-");
    auto const commands = command_names();
    if (!option_first && std::find(commands.begin(), commands.end(), arguments[0]) == commands.end())
    {
        std::string const near = fields::nearest(arguments[0], commands);
        throw UsageProblem("unknown command '" + arguments[0] + "'" +
                           (near.empty() ? "; 'padwalk --help' lists them" : "; did you mean '" + near + "'?"));
    }
    CLI::App app;
    app.set_help_flag("");
    app.require_subcommand(1);
    app.fallthrough();
    bool help = false;
    std::string system = "us";
    app.add_flag("-h,--help", help);
    add_common(app, out, system);
    CLI::App* assess = app.add_subcommand("assess");
    assess->add_option("visit", out.visit);
    assess->add_flag("--json", out.json);
    assess->add_option("--html", out.html);
    assess->add_flag("--force", out.force);
    std::string language = "en";
    CLI::App* client = app.add_subcommand("client");
    CLI::App* refer = app.add_subcommand("refer");
    CLI::App* documents = app.add_subcommand("documents");
    for (auto* sub : {client, refer, documents})
    {
        sub->add_option("visit", out.visit);
        sub->add_option("--language", language);
        sub->add_flag("--force", out.force);
    }
    client->add_option("--html", out.html);
    refer->add_option("--html", out.html);
    refer->add_option("--for", out.trade);
    documents->add_option("--out", out.out_file);
    CLI::App* next = app.add_subcommand("next");
    next->add_option("visit", out.visit);
    next->add_flag("--json", out.json);
    CLI::App* why = app.add_subcommand("why");
    why->add_option("visit", out.visit);
    std::vector<std::string> cause;
    why->add_option("cause", cause);
    why->add_flag("--json", out.json);
    CLI::App* walk = app.add_subcommand("walk");
    walk->add_option("visit", out.visit);
    CLI::App* water = app.add_subcommand("water");
    water->add_option("given", out.given);
    water->add_flag("--json", out.json);
    water->add_option("--html", out.html);
    water->add_flag("--force", out.force);
    water->add_option("--days", out.days);
    CLI::App* compare = app.add_subcommand("compare");
    compare->add_option("visits", out.visits);
    compare->add_flag("--json", out.json);
    compare->add_option("--html", out.html);
    compare->add_flag("--force", out.force);
    CLI::App* history = app.add_subcommand("history");
    history->add_option("folder", out.visit);
    history->add_flag("--json", out.json);
    history->add_option("--html", out.html);
    history->add_flag("--force", out.force);
    CLI::App* tune = app.add_subcommand("tune");
    tune->add_option("folder", out.visit);
    tune->add_flag("--json", out.json);
    tune->add_option("--out", out.out_file);
    tune->add_flag("--force", out.force);
    CLI::App* check = app.add_subcommand("check");
    check->add_option("visit", out.visit);
    check->add_flag("--json", out.json);
    CLI::App* figure = app.add_subcommand("figure");
    figure->add_option("name", out.figure);
    figure->add_option("given", out.given);
    figure->add_flag("--json", out.json);
    figure->add_flag("--lines", out.lines);
    CLI::App* sheet = app.add_subcommand("sheet");
    std::vector<std::string> parts;
    sheet->add_option("visit", out.visit);
    sheet->add_option("--for", parts)->delimiter(',')->allow_extra_args(false);
    sheet->add_flag("--paper", out.paper);
    sheet->add_option("--html", out.html);
    sheet->add_flag("--force", out.force);
    app.add_subcommand("schema");
    for (auto* sub : app.get_subcommands({}))
        sub->set_help_flag("");
    try
    {
        std::vector<std::string> reversed(arguments.rbegin(), arguments.rend());
        app.parse(reversed);
    }
    catch (CLI::ParseError const& e)
    {
        if (help)
        {
            out.help = general_help;
            return out;
        }
        explain(e);
    }
    if (help)
    {
        out.help = general_help;
        return out;
    }
    if (system != "us" && system != "si")
        throw UsageProblem("--units is us or si, not '" + system + "'");
    out.system = system == "si" ? units::System::si : units::System::us;
    if (language != "en" && language != "es")
        throw UsageProblem("--language is en or es, not '" + language + "'");
    out.language = language == "es" ? report::Language::spanish : report::Language::english;
    out.parts = parts;
    for (auto const& word : cause)
        out.cause += (out.cause.empty() ? "" : " ") + word;
    for (auto const& known : known_commands)
        if (app.got_subcommand(std::string(known.name)))
            out.command = known.command;
    bool const wants_visit = out.command == C::assess || out.command == C::check || out.command == C::next ||
                             out.command == C::why || out.command == C::client || out.command == C::refer ||
                             out.command == C::documents;
    if (wants_visit && out.visit.empty())
        throw UsageProblem("name the visit file, for example 'padwalk assess visit.yaml'");
    if (out.command == C::documents && out.out_file.empty())
        throw UsageProblem("say into which folder: padwalk documents visit.yaml --out FOLDER");
    if (out.command == C::compare && out.visits.size() != 2)
        throw UsageProblem("name two visit files, the earlier first: padwalk compare visit.yaml return.yaml");
    if (out.command == C::compare && out.visits[0] == "-" && out.visits[1] == "-")
        throw UsageProblem("only one of the two visits can come from standard input");
    if (out.command == C::history && out.visit.empty())
        throw UsageProblem("name the folder of visits, for example 'padwalk history visits'");
    if (out.command == C::tune && out.visit.empty())
        throw UsageProblem("name the folder of visits, for example 'padwalk tune visits'");
    if (out.command == C::walk && out.visit == "-")
        throw UsageProblem("a walk writes into its file: name one, for example 'padwalk walk visit.yaml'");
    if (out.command == C::walk && out.visit.empty())
        out.visit = "visit.yaml";
    if (out.command == C::why && out.cause.empty())
        throw UsageProblem("say which cause, by its name or some words of it: padwalk why visit.yaml worn bearings");
    if (out.command == C::water)
    {
        bool const file = !out.given.empty() && out.given.front().find('=') == std::string::npos;
        if (out.given.empty())
            throw UsageProblem(
                "name the visit file or give readings, for example 'padwalk water ph=7.9 \"alkalinity=130 "
                "ppm\" \"calcium=250 ppm\" \"temperature=84 degF\" \"volume=16000 gal\"'");
        if (file && out.given.size() > 1)
            throw UsageProblem("one visit file, or readings as key=value, not both");
        if (file)
            out.visit = out.given.front(), out.given.clear();
        if (out.days < 1 || out.days > 400)
            throw UsageProblem("--days is 1 to 400");
    }
    if (out.lines && (out.figure.empty() || !out.given.empty()))
        throw UsageProblem(
            "--lines wants the name of one figure and no key=value, for example 'padwalk figure turnover --lines'");
    return out;
}

} // namespace padwalk::command_line
