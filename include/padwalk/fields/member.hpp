#pragma once
/// How a member of a record is described, read and written, by its type. Start with record.hpp.

#include "padwalk/fields/node.hpp"
#include "padwalk/fields/problems.hpp"
#include "padwalk/fields/shape.hpp"
#include "padwalk/fields/tree.hpp"
#include "padwalk/units/reading.hpp"

#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace padwalk::fields
{

/// Records under names that the user chose, in the order written.
template <class T> using Named = std::vector<std::pair<std::string, T>>;

/// A date, or a date and time of day: '2026-05-14', '2026-05-14 10:30'.
struct Moment
{
    std::string text;   ///< normalised
    double hours = 0.0; ///< since 1970-01-01 00:00, for differences
};

/// Points of a pump's curve.
struct CurvePoint
{
    units::VolumeFlow flow{};
    units::Head head{};
};

/// The doubt that an instrument's readings have: (reading, row of the instrument table, the record as written).
/// Returns the standard uncertainty (SI) and the instrument's name.
struct InstrumentDoubt
{
    double doubt = 0.0;
    std::string method;
};
using Instruments = std::function<InstrumentDoubt(units::Reading const&, std::string const& row, Node const& record)>;

/// What is collected while reading.
struct ReadContext
{
    std::vector<Problem> problems;                                           ///< any of these: nothing is used
    std::vector<Problem> oddities;                                           ///< possible but unusual
    std::vector<std::string> blanks;                                         ///< 'key:' with nothing after it
    Instruments instruments;                                                 ///< may be empty: then no doubt is added
    std::vector<std::pair<std::string, units::Reading>>* readings = nullptr; ///< every quantity read, by field name
    bool partial = false; ///< required fields may be missing: they come from elsewhere
    std::string path;
};

void problem(ReadContext& context, Node const& node, std::string message, std::string advice = {});

/// Readers for the plain forms; each reports to the context and returns nothing on a problem.
std::optional<units::Reading> read_quantity_node(Node const& node, FieldShape const& field, Node const& record,
                                                 ReadContext& context);
std::optional<std::string> read_text_node(Node const& node, FieldShape const& field, ReadContext& context);
std::optional<std::size_t> read_choice_node(Node const& node, FieldShape const& field, ReadContext& context);
std::optional<bool> read_yes_no_node(Node const& node, FieldShape const& field, ReadContext& context);
std::optional<Moment> read_moment_node(Node const& node, FieldShape const& field, ReadContext& context);
std::optional<std::vector<CurvePoint>> read_curve_node(Node const& node, FieldShape const& field, ReadContext& context);
/// Checks that node is a map, reports unknown and duplicate keys and missing required fields. False: don't go on.
bool check_map(Node const& node, RecordShape const& shape, ReadContext& context);
/// Names under which records stand are the user's own, but each may stand once and not be empty.
bool check_names(Node const& node, FieldShape const& field, ReadContext& context);
bool check_form(Node const& node, Node::Kind kind, FieldShape const& field, ReadContext& context);
[[nodiscard]] Tree tree_of(units::Reading const& reading);

template <class E>
struct words_of; ///< specialise for an enumeration: static std::vector<std::string> words(), in the enumerators' order

template <class T> class Record;

template <class T>
concept Declared = requires
{
    T::declaration();
};
template <class E>
concept Worded = std::is_enum_v<E>;

template <class T> RecordShape const* shape_of()
{
    return &T::declaration().shape();
}

template <Declared T> bool read_record(Node const& node, T& out, ReadContext& context)
{
    return T::declaration().read(node, out, context);
}

/// How a member of type M is described, read and written.
template <class M> struct Member;

template <class M> struct Member<std::optional<M>>
{
    static void describe(FieldShape& f) { Member<M>::describe(f); }
    static void read(Node const& node, FieldShape const& f, Node const& record, std::optional<M>& out, ReadContext& c)
    {
        M value{};
        std::size_t const before = c.problems.size();
        Member<M>::read(node, f, record, value, c);
        if (c.problems.size() == before)
            out = std::move(value);
    }
    static Tree write(std::optional<M> const& value) { return value ? Member<M>::write(*value) : Tree(); }
    static constexpr bool numeric = Member<M>::numeric;
    static void set(std::optional<M>& out, double si)
    {
        M value{};
        Member<M>::set(value, si);
        out = std::move(value);
    }
    static std::optional<double> get(std::optional<M> const& value)
    {
        return value ? Member<M>::get(*value) : std::nullopt;
    }
    static std::optional<units::Reading> reading(std::optional<M> const& value)
    {
        return value ? Member<M>::reading(*value) : std::nullopt;
    }
};

template <units::Quantity Q> struct Member<Q>
{
    static constexpr bool numeric = true;
    static void describe(FieldShape& f)
    {
        f.form = FieldShape::Form::quantity;
        f.measure = units::measure_of<Q>::value;
    }
    static void read(Node const& node, FieldShape const& f, Node const& record, Q& out, ReadContext& c)
    {
        if (auto const reading = read_quantity_node(node, f, record, c))
            out = units::of_si<Q>(reading->value);
    }
    static Tree write(Q const& value) { return tree_of(units::Reading::exact(value)); }
    static void set(Q& out, double si) { out = units::of_si<Q>(si); }
    static std::optional<double> get(Q const& value) { return units::in_si(value); }
    static std::optional<units::Reading> reading(Q const& value) { return units::Reading::exact(value); }
};

template <units::Quantity Q> struct Member<units::Measured<Q>>
{
    static constexpr bool numeric = true;
    static void describe(FieldShape& f) { Member<Q>::describe(f); }
    static void read(Node const& node, FieldShape const& f, Node const& record, units::Measured<Q>& out, ReadContext& c)
    {
        if (auto const r = read_quantity_node(node, f, record, c))
            out = {units::of_si<Q>(r->value), units::of_si<units::Difference<Q>>(r->doubt), r->method};
    }
    static Tree write(units::Measured<Q> const& value) { return tree_of(units::Reading::of(value)); }
    static void set(units::Measured<Q>& out, double si) { out.value = units::of_si<Q>(si); }
    static std::optional<double> get(units::Measured<Q> const& value) { return units::in_si(value.value); }
    static std::optional<units::Reading> reading(units::Measured<Q> const& value) { return units::Reading::of(value); }
};

/// The part of Member that only numbers need, for forms that have none.
template <class M> struct NotNumeric
{
    static constexpr bool numeric = false;
    static void set(M&, double) {}
    static std::optional<double> get(M const&) { return std::nullopt; }
    static std::optional<units::Reading> reading(M const&) { return std::nullopt; }
};

template <> struct Member<std::string> : NotNumeric<std::string>
{
    static void describe(FieldShape& f) { f.form = FieldShape::Form::text; }
    static void read(Node const& node, FieldShape const& f, Node const&, std::string& out, ReadContext& c)
    {
        if (auto const text = read_text_node(node, f, c))
            out = *text;
    }
    static Tree write(std::string const& value) { return Tree(value); }
};

template <> struct Member<bool> : NotNumeric<bool>
{
    static void describe(FieldShape& f) { f.form = FieldShape::Form::yes_no; }
    static void read(Node const& node, FieldShape const& f, Node const&, bool& out, ReadContext& c)
    {
        if (auto const value = read_yes_no_node(node, f, c))
            out = *value;
    }
    static Tree write(bool const& value) { return Tree(value); }
};

template <> struct Member<Moment> : NotNumeric<Moment>
{
    static void describe(FieldShape& f) { f.form = FieldShape::Form::moment; }
    static void read(Node const& node, FieldShape const& f, Node const&, Moment& out, ReadContext& c)
    {
        if (auto const value = read_moment_node(node, f, c))
            out = *value;
    }
    static Tree write(Moment const& value) { return Tree(value.text); }
};

template <> struct Member<std::vector<CurvePoint>> : NotNumeric<std::vector<CurvePoint>>
{
    static void describe(FieldShape& f) { f.form = FieldShape::Form::curve; }
    static void read(Node const& node, FieldShape const& f, Node const&, std::vector<CurvePoint>& out, ReadContext& c)
    {
        if (auto value = read_curve_node(node, f, c))
            out = std::move(*value);
    }
    static Tree write(std::vector<CurvePoint> const& value)
    {
        Tree list = Tree::list();
        for (auto const& p : value)
            list.push(Tree::map()
                          .add("flow", tree_of(units::Reading::exact(p.flow)))
                          .add("head", tree_of(units::Reading::exact(p.head))));
        return list;
    }
};

template <Worded E> struct Member<E> : NotNumeric<E>
{
    static void describe(FieldShape& f)
    {
        f.form = FieldShape::Form::choice;
        f.words = words_of<E>::words();
    }
    static void read(Node const& node, FieldShape const& f, Node const&, E& out, ReadContext& c)
    {
        if (auto const index = read_choice_node(node, f, c))
            out = static_cast<E>(*index);
    }
    static Tree write(E const& value) { return Tree(words_of<E>::words()[static_cast<std::size_t>(value)]); }
};

template <Declared T> struct Member<T> : NotNumeric<T>
{
    static void describe(FieldShape& f)
    {
        f.form = FieldShape::Form::record;
        f.inner = &shape_of<T>;
    }
    static void read(Node const& node, FieldShape const&, Node const&, T& out, ReadContext& c)
    {
        read_record(node, out, c);
    }
    static Tree write(T const& value) { return T::declaration().write(value); }
};

template <class M> struct Member<std::vector<M>> : NotNumeric<std::vector<M>>
{
    static constexpr bool takes_single_value = Declared<M> || std::is_same_v<M, std::string>;
    static void describe(FieldShape& f)
    {
        FieldShape inner;
        Member<M>::describe(inner);
        f.form = FieldShape::Form::list;
        f.item = inner.form;
        f.inner = inner.inner;
        f.words = inner.words;
        f.measure = inner.measure;
    }
    static void read(Node const& node, FieldShape const& f, Node const& record, std::vector<M>& out, ReadContext& c)
    {
        if (node.kind == Node::Kind::scalar && takes_single_value)
        {
            Node list; // 'noticed: grinding noise' is a list of one
            list.kind = Node::Kind::list;
            list.place = node.place;
            list.items.push_back(node);
            read(list, f, record, out, c);
            return;
        }
        if (!check_form(node, Node::Kind::list, f, c))
            return;
        std::string const path = c.path;
        for (std::size_t i = 0; i < node.items.size(); ++i)
        {
            c.path = path + "/" + std::to_string(i + 1);
            M value{};
            std::size_t const before = c.problems.size();
            Member<M>::read(node.items[i], f, record, value, c);
            if (c.problems.size() == before)
                out.push_back(std::move(value));
        }
        c.path = path;
    }
    static Tree write(std::vector<M> const& value)
    {
        Tree list = Tree::list();
        for (auto const& v : value)
            list.push(Member<M>::write(v));
        return list;
    }
};

template <Declared T> struct Member<Named<T>> : NotNumeric<Named<T>>
{
    static void describe(FieldShape& f)
    {
        f.form = FieldShape::Form::named;
        f.inner = &shape_of<T>;
    }
    static void read(Node const& node, FieldShape const& f, Node const&, Named<T>& out, ReadContext& c)
    {
        if (!check_form(node, Node::Kind::map, f, c) || !check_names(node, f, c))
            return;
        std::string const path = c.path;
        for (auto const& entry : node.entries)
        {
            c.path = path + "/" + entry.key;
            T value{};
            if (entry.value.kind != Node::Kind::nothing) // 'spa pump:' alone is an item of which nothing was said
                read_record(entry.value, value, c);
            out.emplace_back(entry.key, std::move(value));
        }
        c.path = path;
    }
    static Tree write(Named<T> const& value)
    {
        Tree map = Tree::map();
        for (auto const& [name, v] : value)
            map.add(name, T::declaration().write(v));
        return map;
    }
};

template <units::Quantity Q> struct Member<Named<Q>> : NotNumeric<Named<Q>>
{
    static void describe(FieldShape& f)
    {
        f.form = FieldShape::Form::named;
        f.measure = units::measure_of<Q>::value;
    }
    static void read(Node const& node, FieldShape const& f, Node const&, Named<Q>& out, ReadContext& c)
    {
        if (!check_form(node, Node::Kind::map, f, c) || !check_names(node, f, c))
            return;
        for (auto const& entry : node.entries)
            if (auto const reading = read_quantity_node(entry.value, f, node, c))
                out.emplace_back(entry.key, units::of_si<Q>(reading->value));
    }
    static Tree write(Named<Q> const& value)
    {
        Tree map = Tree::map();
        for (auto const& [name, q] : value)
            map.add(name, Member<Q>::write(q));
        return map;
    }
};

/// The same with the doubt as written, or the instrument's of the field.
template <units::Quantity Q> struct Member<Named<units::Measured<Q>>> : NotNumeric<Named<units::Measured<Q>>>
{
    static void describe(FieldShape& f) { Member<Named<Q>>::describe(f); }
    static void read(Node const& node, FieldShape const& f, Node const&, Named<units::Measured<Q>>& out, ReadContext& c)
    {
        if (!check_form(node, Node::Kind::map, f, c) || !check_names(node, f, c))
            return;
        for (auto const& entry : node.entries)
        {
            units::Measured<Q> value;
            std::size_t const before = c.problems.size();
            Member<units::Measured<Q>>::read(entry.value, f, node, value, c);
            if (c.problems.size() == before)
                out.emplace_back(entry.key, std::move(value));
        }
    }
    static Tree write(Named<units::Measured<Q>> const& value)
    {
        Tree map = Tree::map();
        for (auto const& [name, m] : value)
            map.add(name, Member<units::Measured<Q>>::write(m));
        return map;
    }
};

/// SI value of a text such as '150 psi'; a declaration with a bad one is a programming error (std::logic_error).
[[nodiscard]] double declared_value(std::string const& text, FieldShape const& field);

} // namespace padwalk::fields
