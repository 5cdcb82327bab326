#pragma once
/// One declaration, many uses. A record type T has
///
///     static fields::Record<T> const& declaration();
///
/// which names each of its fields once. Strict reading, JSON, the schema, the field sheet, the calculator's help and
/// its propagation of doubt all come from that; adding a field is one line there.

#include "padwalk/fields/member.hpp"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace padwalk::fields
{

/// The fields of T, in order.
template <class T> class Record
{
public:
    Record(std::string name, std::string meaning)
    {
        shape_.name = std::move(name), shape_.meaning = std::move(meaning);
    }

    /// Declares the next field; the calls below refine it.
    template <class M> Record&& field(std::string name, M T::*member, std::string meaning) &&
    {
        FieldShape f;
        f.name = std::move(name);
        f.meaning = std::move(meaning);
        Member<M>::describe(f);
        shape_.fields.push_back(std::move(f));
        accesses_.push_back({[member](Node const& n, FieldShape const& s, Node const& r, T& out, ReadContext& c)
                             { Member<M>::read(n, s, r, out.*member, c); },
                             [member](T const& value) { return Member<M>::write(value.*member); },
                             [member](T& out, double si) { Member<M>::set(out.*member, si); },
                             [member](T const& value) { return Member<M>::get(value.*member); },
                             [member](T const& value) { return Member<M>::reading(value.*member); }});
        return std::move(*this);
    }
    Record&& required() &&
    {
        return last([](FieldShape& f) { f.required = true; });
    }
    /// What is assumed when the field is left out, and why that may be.
    Record&& otherwise(std::string text, std::string because) &&
    {
        return last([&](FieldShape& f) { f.otherwise = std::move(text), f.because = std::move(because); });
    }
    /// Values outside can't be; they are refused.
    Record&& within(std::string const& low, std::string const& high) &&
    {
        return last(
            [&](FieldShape& f) {
                f.low = declared_value(low, f), f.high = declared_value(high, f), f.low_text = low, f.high_text = high;
            });
    }
    /// Values outside are possible but odd; they are used, and said.
    Record&& usual(std::string const& low, std::string const& high) &&
    {
        return last(
            [&](FieldShape& f)
            {
                f.usual_low = declared_value(low, f), f.usual_high = declared_value(high, f), f.usual_low_text = low,
                f.usual_high_text = high;
            });
    }
    Record&& read_by(std::string instrument) &&
    {
        return last([&](FieldShape& f) { f.instrument = std::move(instrument); });
    }
    Record&& shown_in(std::string us, std::string si) &&
    {
        return last([&](FieldShape& f) { f.unit_us = std::move(us), f.unit_si = std::move(si); });
    }
    Record&& like(std::string example) &&
    {
        return last([&](FieldShape& f) { f.example = std::move(example); });
    }

    /// '- grinding noise' may be written for '- seen: grinding noise'.
    Record&& short_form(std::string field) &&
    {
        shape_.short_form = std::move(field);
        return std::move(*this);
    }

    [[nodiscard]] RecordShape const& shape() const { return shape_; }

    /// Reads every field that is there; problems go to the context. False if there were any.
    bool read(Node const& written, T& out, ReadContext& context) const
    {
        bool const shortened = written.kind == Node::Kind::scalar && !shape_.short_form.empty();
        if (shortened)
            return read(Node::map({{shape_.short_form, written.place, written}}), out, context);
        Node const& node = written;
        std::size_t const before = context.problems.size();
        if (!check_map(node, shape_, context))
            return false;
        std::string const path = context.path;
        for (std::size_t i = 0; i < shape_.fields.size(); ++i)
            for (auto const& entry : node.entries)
                if (entry.key == shape_.fields[i].name || normal_key(entry.key) == shape_.fields[i].name)
                {
                    context.path = path.empty() ? shape_.fields[i].name : path + "/" + shape_.fields[i].name;
                    if (entry.value.kind == Node::Kind::nothing)
                        context.blanks.push_back(context.path);
                    else
                        accesses_[i].read(entry.value, shape_.fields[i], node, out, context);
                }
        context.path = path;
        return context.problems.size() == before;
    }

    [[nodiscard]] Tree write(T const& value) const
    {
        Tree map = Tree::map();
        for (std::size_t i = 0; i < accesses_.size(); ++i)
        {
            Tree child = accesses_[i].write(value);
            auto const* list = std::get_if<Tree::List>(&child.value());
            auto const* inner = std::get_if<Tree::Map>(&child.value());
            auto const* text = std::get_if<std::string>(&child.value());
            if (!child.nothing() && !(list && list->empty()) && !(inner && inner->empty()) && !(text && text->empty()))
                map.add(shape_.fields[i].name, std::move(child));
        }
        return map;
    }

    void set(T& out, std::size_t field, double si) const { accesses_.at(field).set(out, si); }
    [[nodiscard]] std::optional<double> get(T const& value, std::size_t field) const
    {
        return accesses_.at(field).get(value);
    }
    [[nodiscard]] std::optional<units::Reading> reading(T const& value, std::size_t field) const
    {
        return accesses_.at(field).reading(value);
    }
    [[nodiscard]] Tree write_field(T const& value, std::size_t field) const { return accesses_.at(field).write(value); }

private:
    struct Access
    {
        std::function<void(Node const&, FieldShape const&, Node const&, T&, ReadContext&)> read;
        std::function<Tree(T const&)> write;
        std::function<void(T&, double)> set;
        std::function<std::optional<double>(T const&)> get;
        std::function<std::optional<units::Reading>(T const&)> reading;
    };

    template <class Change> Record&& last(Change change)
    {
        change(shape_.fields.back());
        return std::move(*this);
    }

    RecordShape shape_;
    std::vector<Access> accesses_;
};

} // namespace padwalk::fields
