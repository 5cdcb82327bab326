#pragma once
/// Running a model on readings that have doubt.

#include "padwalk/figures/model.hpp"

#include <string>
#include <vector>

namespace padwalk::figures
{

/// What a model is given: readings by the names of its inputs, or words for its choices.
class Inputs
{
public:
    struct Item
    {
        std::string name;
        std::variant<units::Reading, fields::Node> value;
    };

    Inputs& add(std::string name, units::Reading reading);
    Inputs& add_words(std::string name, std::string words);
    Inputs& add_node(std::string name, fields::Node node);

    template <units::Quantity Q> Inputs& add(std::string name, units::Measured<Q> const& measured)
    {
        return add(std::move(name), units::Reading::of(measured));
    }
    /// Nothing is added where there is no reading; the model's own assumption then holds, or it isn't computed.
    template <units::Quantity Q> Inputs& add(std::string name, std::optional<units::Measured<Q>> const& measured)
    {
        return measured ? add(std::move(name), *measured) : *this;
    }

    [[nodiscard]] std::vector<Item> const& items() const { return items_; }

private:
    std::vector<Item> items_;
};

struct UsedInput
{
    fields::FieldShape const* shape = nullptr;
    units::Reading reading;
    std::string words; ///< where it is no quantity
    bool assumed = false;
};

struct OutputValue
{
    fields::FieldShape const* shape = nullptr;
    std::optional<double> value; ///< SI
    double low = 0.0;            ///< 95 % interval, SI; equal to value where no input had doubt
    double high = 0.0;
    std::string words; ///< where it is no quantity

    /// As a measured value, to be given to the next model.
    [[nodiscard]] units::Reading reading() const;
};

/// A computed figure, or the reason why there is none.
struct Figure
{
    Model const* model = nullptr;
    std::vector<UsedInput> inputs;
    std::vector<OutputValue> outputs;
    std::string why_not; ///< empty: computed
    std::string note;    ///< part of the doubt lies outside the model, say

    [[nodiscard]] bool computed() const { return why_not.empty(); }
    /// Throws std::out_of_range for a name that is no output.
    [[nodiscard]] OutputValue const& output(std::string_view name) const;
    /// The output as a typed measured value; std::logic_error if it is of another measure, none if absent.
    template <units::Quantity Q> [[nodiscard]] std::optional<units::Measured<Q>> get(std::string_view name) const
    {
        if (!computed())
            return std::nullopt;
        OutputValue const& out = output(name);
        if (!out.value)
            return std::nullopt;
        if (out.shape->measure != units::measure_of<Q>::value)
            throw std::logic_error("output '" + std::string(name) + "' is of another measure");
        units::Reading const r = out.reading();
        return units::Measured<Q>{units::of_si<Q>(r.value), units::of_si<units::Difference<Q>>(r.doubt), model->name};
    }
};

/// Computes the figure and its 95 % intervals: the inputs' doubts are carried through by 255 points of a Sobol
/// sequence, each input normal but cut at the range its field allows [gum-2008 supplement 1]. Same input, same output.
/// What the model can't answer becomes why_not. Wrong names or measures in `inputs` are std::logic_error.
[[nodiscard]] Figure run(Model const& model, Inputs const& inputs);

/// One input's part in an output's doubt.
struct DoubtShare
{
    std::string input;
    double share = 0.0; ///< of the variance; the shares add up to 1
    bool assumed = false;
};

/// Which readings an output owes its doubt to, the largest first: each input is moved by one standard uncertainty
/// either way while the others stay, (f(x + u) - f(x - u))/2 squared [gum-2008, 5.1]. Empty where nothing has doubt or
/// nothing moves it. std::out_of_range for a name that is no output; std::logic_error for a model with inputs that are
/// neither quantities nor choices (a pump's curve).
[[nodiscard]] std::vector<DoubtShare> doubt_shares(Figure const& figure, std::string_view output);

/// Runs a model on what a person wrote; throws fields::InputProblems with all that is wrong.
[[nodiscard]] Figure run_written(Model const& model, fields::Node const& record);

} // namespace padwalk::figures
