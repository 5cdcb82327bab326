#pragma once
/// Tables of outside figures for tests: a CSV file whose lines beginning with # are its source, then a line of column
/// names, then rows. Strict: a missing file or column, a row of another width or a number that isn't one throws.

#include <cstddef>
#include <fstream>
#include <locale>
#include <map>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace padwalk::tests
{

/// The fields of one line; "a field, with a comma and a "" quote".
inline std::vector<std::string> csv_fields(std::string const& line)
{
    std::vector<std::string> fields(1);
    bool quoted = false;
    for (std::size_t i = 0; i < line.size(); ++i)
    {
        bool const doubled = quoted && line[i] == '"' && i + 1 < line.size() && line[i + 1] == '"';
        if (doubled)
            fields.back() += line[++i];
        else if (line[i] == '"')
            quoted = !quoted;
        else if (line[i] == ',' && !quoted)
            fields.emplace_back();
        else
            fields.back() += line[i];
    }
    if (quoted)
        throw std::runtime_error("a quote is not closed in: " + line);
    return fields;
}

/// Text as a number, all of it, whatever the locale.
inline double csv_number(std::string const& text)
{
    std::istringstream stream(text);
    stream.imbue(std::locale::classic());
    double value = 0.0;
    if (!(stream >> value) || stream.peek() != std::istringstream::traits_type::eof())
        throw std::runtime_error("'" + text + "' is not a number");
    return value;
}

class CsvRow
{
public:
    CsvRow(std::string place, std::map<std::string, std::string> fields)
        : place_(std::move(place)), fields_(std::move(fields))
    {
    }

    [[nodiscard]] std::string const& text(std::string const& column) const
    {
        auto const found = fields_.find(column);
        if (found == fields_.end())
            throw std::runtime_error(place_ + ": no column '" + column + "'");
        return found->second;
    }

    [[nodiscard]] double number(std::string const& column) const
    {
        try
        {
            return csv_number(text(column));
        }
        catch (std::runtime_error const& e)
        {
            throw std::runtime_error(place_ + ", " + column + ": " + e.what());
        }
    }

    [[nodiscard]] std::string const& place() const { return place_; } ///< 'water.csv:12', for INFO

private:
    std::string place_;
    std::map<std::string, std::string> fields_;
};

/// Every row of a CSV in a stream; 'name' is for messages. A field may not go over the end of a line.
inline std::vector<CsvRow> read_csv(std::istream& stream, std::string const& name)
{
    std::vector<std::string> columns;
    std::vector<CsvRow> rows;
    std::string line;
    for (int number = 1; std::getline(stream, line); ++number)
    {
        if (!line.empty() && line.back() == '\r')
            line.pop_back();
        if (line.empty() || line.front() == '#')
            continue;
        std::string const place = name + ":" + std::to_string(number);
        auto const fields = csv_fields(line);
        if (columns.empty())
        {
            columns = fields;
            continue;
        }
        if (fields.size() != columns.size())
            throw std::runtime_error(place + ": " + std::to_string(fields.size()) + " fields for " +
                                     std::to_string(columns.size()) + " columns");
        std::map<std::string, std::string> row;
        for (std::size_t i = 0; i < fields.size(); ++i)
            row[columns[i]] = fields[i];
        if (row.size() != columns.size())
            throw std::runtime_error(place + ": two columns have one name");
        rows.emplace_back(place, std::move(row));
    }
    if (rows.empty())
        throw std::runtime_error(name + " has no rows");
    return rows;
}

#ifdef PADWALK_TEST_REFERENCE
/// Every row of tests/reference/'path'.
inline std::vector<CsvRow> reference_csv(std::string const& path)
{
    std::ifstream stream(std::string(PADWALK_TEST_REFERENCE) + "/" + path);
    if (!stream)
        throw std::runtime_error("can't read tests/reference/" + path);
    return read_csv(stream, path);
}
#endif

} // namespace padwalk::tests
