#pragma once
/// A sheet of fixed width to write on, line by line.

#include <string>
#include <string_view>

namespace padwalk::report
{

enum class Ink
{
    plain,
    strong,
    danger,
    quiet
};

class Paper
{
public:
    Paper(std::size_t columns, bool colour);

    /// A blank line; never two, and none at the top.
    void gap();
    void heading(std::string_view text, Ink ink = Ink::strong);
    /// `text` set in by `indent` behind `lead`, its further lines under where it began. The lead is written as it is.
    void write(std::string_view text, std::size_t indent = 0, std::string_view lead = {}, Ink ink = Ink::plain);
    /// 'label: text' set in by `indent` behind `lead`, its further lines under where it began, or `hang` columns
    /// further.
    void run_in(std::string_view label, std::string_view text, std::size_t indent, std::string_view lead, Ink label_ink,
                Ink ink, std::size_t hang = 0);
    /// A label of `label_width` columns and beside it the text, behind `lead`; below it, set in, where the paper is
    /// narrow.
    void pair(std::string_view label, std::string_view text, std::size_t indent, std::size_t label_width,
              Ink label_ink = Ink::plain, Ink ink = Ink::plain, std::string_view lead = {});

    [[nodiscard]] std::size_t columns() const { return columns_; }
    [[nodiscard]] bool narrow() const { return columns_ < 60; }
    [[nodiscard]] std::string take();

private:
    std::size_t columns_;
    bool colour_;
    std::string out_;
    bool blank_ = true;

    [[nodiscard]] std::string inked(std::string_view text, Ink ink) const;
    void line(std::string text);
};

} // namespace padwalk::report
