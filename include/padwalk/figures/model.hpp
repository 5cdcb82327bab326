#pragma once
/// The catalogue of figures: every model is a pure function from a declared record of inputs to one of outputs,
/// registered with its equation, valid range and source. `padwalk figure` and the assessment run the same ones.

#include "padwalk/fields/record.hpp"

#include <functional>
#include <memory>
#include <stdexcept>
#include <string>
#include <variant>
#include <vector>

namespace padwalk::figures
{

/// A model can't answer for these inputs: outside its valid range, or no solution. Never a silent number.
class NotComputed : public std::runtime_error
{
public:
    using std::runtime_error::runtime_error;
};

/// A model with its types erased; made by `model(...)` below.
class Kernel
{
public:
    virtual ~Kernel() = default;
    [[nodiscard]] virtual std::unique_ptr<Kernel> fresh() const = 0;
    [[nodiscard]] virtual fields::RecordShape const& inputs() const = 0;
    [[nodiscard]] virtual fields::RecordShape const& outputs() const = 0;
    virtual bool read(fields::Node const& node, fields::ReadContext& context) = 0;
    virtual void set(std::size_t input, double si) = 0;
    virtual void evaluate() = 0;
    /// Puts the evaluated result into words. Not asked of the samples that doubt is carried by.
    virtual void describe() {}
    [[nodiscard]] virtual std::optional<double> output(std::size_t index) const = 0;
    [[nodiscard]] virtual std::string output_text(std::size_t index) const = 0;
};

struct Model
{
    std::string name;
    std::string title;                 ///< one line: what it answers
    std::string equation;              ///< as text, symbols explained
    std::string valid;                 ///< range, in words
    std::vector<std::string> sources;  ///< keys of data/sources
    std::vector<std::string> cautions; ///< keys of the cautions to show with it
    double own_doubt = 0.0; ///< relative standard uncertainty of the equation itself, from its source or judged
    std::shared_ptr<Kernel const> kernel;
};

template <class In, class Out> class TypedKernel final : public Kernel
{
public:
    using Function = std::function<Out(In const&)>;
    using Words = std::function<void(In const&, Out&)>;
    explicit TypedKernel(Function function, Words words = {}) : function_(std::move(function)), words_(std::move(words))
    {
    }

    [[nodiscard]] std::unique_ptr<Kernel> fresh() const override
    {
        return std::make_unique<TypedKernel>(function_, words_);
    }
    [[nodiscard]] fields::RecordShape const& inputs() const override { return In::declaration().shape(); }
    [[nodiscard]] fields::RecordShape const& outputs() const override { return Out::declaration().shape(); }
    bool read(fields::Node const& node, fields::ReadContext& context) override
    {
        return In::declaration().read(node, in_, context);
    }
    void set(std::size_t input, double si) override { In::declaration().set(in_, input, si); }
    void evaluate() override { out_ = function_(in_); }
    void describe() override
    {
        if (words_)
            words_(in_, out_);
    }
    [[nodiscard]] std::optional<double> output(std::size_t index) const override
    {
        return Out::declaration().get(out_, index);
    }
    [[nodiscard]] std::string output_text(std::size_t index) const override
    {
        fields::Tree const tree = Out::declaration().write_field(out_, index);
        auto const* text = std::get_if<std::string>(&tree.value());
        return text != nullptr ? *text : std::string();
    }

private:
    Function function_;
    Words words_;
    In in_{};
    Out out_{};
};

/// What a model is, apart from its function: names its fields in the order of Model.
struct About
{
    std::string name;
    std::string title;
    std::string equation;
    std::string valid;
    std::vector<std::string> sources;
    std::vector<std::string> cautions = {};
    double own_doubt = 0.0;
};

/// Registers a function. `Out function(In const&)`; In and Out are declared records.
/// Each input is required(), has an otherwise(), or is a std::optional that the function handles. `words` fills texts
/// of the output, where making them would slow the carrying of doubt.
template <class In, class Out>
Model model(About about, std::function<Out(In const&)> function, std::function<void(In const&, Out&)> words = {})
{
    return {std::move(about.name),     std::move(about.title),
            std::move(about.equation), std::move(about.valid),
            std::move(about.sources),  std::move(about.cautions),
            about.own_doubt,           std::make_shared<TypedKernel<In, Out>>(std::move(function), std::move(words))};
}

} // namespace padwalk::figures
