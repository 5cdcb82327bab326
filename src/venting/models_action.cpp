#include "model_groups.hpp"

namespace padwalk::venting
{
namespace
{

using fields::Record;

struct ActionInput
{
    units::GasFraction carbon_monoxide{};
    static Record<ActionInput> const& declaration()
    {
        static Record<ActionInput> const record =
            Record<ActionInput>("carbon_monoxide_action", "what to do at once at a reading in the air")
                .field("carbon_monoxide", &ActionInput::carbon_monoxide,
                       "in the air people breathe, the highest of all places")
                .required()
                .within("0 ppm", "12800 ppm");
        return record;
    }
};

struct ActionOutput
{
    units::GasFraction level{};
    std::string in_words;
    static Record<ActionOutput> const& declaration()
    {
        static Record<ActionOutput> const record =
            Record<ActionOutput>("carbon_monoxide_action", "what to do at once at a reading in the air")
                .field("level", &ActionOutput::level, "the level that it reaches")
                .shown_in("ppm", "ppm")
                .field("in_words", &ActionOutput::in_words, "what to do at once, and whose level it is");
        return record;
    }
};

} // namespace

figures::Model carbon_monoxide_action_model(CarbonMonoxideActions const& actions)
{
    return figures::model<ActionInput, ActionOutput>(
        {.name = "carbon_monoxide_action",
         .title = "what to do at once at a reading in the air",
         .equation = "the action of the highest of the levels 9, 35, 70, 200 and 1200 ppm that is reached",
         .valid = "air that people breathe; which action follows from which level is judgement, and an alarm or a "
                  "headache counts for more than any reading" +
                  std::string(rules_decide),
         .sources = {"venting-epa-copies", "osha-co-sampling", "venting-home-alarm-summary",
                     "venting-idlh-instrument-manual", "judgement"},
         .cautions = {"carbon_monoxide", "burner_work"}},
        [actions](ActionInput const& in) -> ActionOutput
        {
            auto const& action = action_at(in.carbon_monoxide, actions);
            return {action.from, action.say + " (" + action.because + ")"};
        });
}

} // namespace padwalk::venting
