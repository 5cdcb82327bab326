#pragma once
/// How pages look and what their fixed words are: templates, style sheet and words of data/report, read once.

#include "padwalk/reference/data.hpp"

#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace padwalk::report
{

enum class Language
{
    english,
    spanish ///< for a trade's referral and for cautions
};

/// The fixed words of documents in one language, and the names of what the knowledge holds.
class Lexicon
{
public:
    Lexicon(reference::Data const& data, Language language);
    Lexicon(Lexicon&&) noexcept;
    ~Lexicon();

    /// A fixed word or sentence by its key in data/report/words.yaml. Throws std::out_of_range naming the key.
    [[nodiscard]] std::string const& operator()(std::string_view key) const;
    /// The same with its '{}' replaced.
    [[nodiscard]] std::string filled(std::string_view key, std::string_view with) const;
    /// What the knowledge says, by its place in data/report/spanish: 'causes/scaled_exchanger/name'. The English where
    /// this language has no other.
    [[nodiscard]] std::string said(std::string_view place, std::string const& english) const;
    [[nodiscard]] bool knows(std::string_view place) const;
    [[nodiscard]] Language language() const;
    [[nodiscard]] std::string_view code() const; ///< 'en', 'es'

private:
    struct Words;
    std::unique_ptr<Words const> words_;
};

/// A word of the trade and what it means to who is not of it.
struct Term
{
    std::string name;
    std::vector<std::string> forms; ///< other forms by which a page may use it
    std::string means;
    static fields::Record<Term> const& declaration();
};
using Glossary = std::vector<Term>;

/// Throws: reference::DataProblems where a template is not well formed or a file is missing.
class Layout
{
public:
    explicit Layout(reference::Data const& data);
    Layout(Layout&&) noexcept;
    ~Layout();

    [[nodiscard]] Lexicon const& words(Language language = Language::english) const;

    [[nodiscard]] Glossary const& glossary() const { return glossary_; }

    struct Templates; ///< src/report/templates.hpp
    [[nodiscard]] Templates const& templates() const { return *templates_; }

private:
    std::unique_ptr<Templates const> templates_;
    Lexicon english_, spanish_;
    Glossary glossary_;
};

} // namespace padwalk::report
