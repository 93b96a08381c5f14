#include "cli/people_csv.hpp"

#include <algorithm>
#include <array>
#include <set>

#include "base/text.hpp"
#include "binder/csv.hpp"
#include "content/node_reader.hpp"

namespace holdpin {
namespace {

constexpr std::array<std::string_view, 9> kColumns{
    "id",           "name",      "badge",      "language",    "duties",
    "endorsements", "extension", "competence", "listed_until"};
constexpr std::size_t kMustColumns = 5;

std::vector<std::string> words_of(std::string_view cell) {
    std::vector<std::string> words;
    for (auto& word : split(cell, ' ')) {
        if (!word.empty()) words.push_back(std::move(word));
    }
    return words;
}

// One row with its place, handing out cells by the name of their column.
class RowReader {
  public:
    RowReader(const std::string& file, const CsvRow& header, const CsvRow& row, Faults& faults)
        : file_(file), header_(header), row_(row), faults_(faults) {}

    std::string cell(std::string_view column) const {
        for (std::size_t i = 0; i < header_.cells.size() && i < row_.cells.size(); ++i) {
            if (header_.cells[i] == column) return std::string(trimmed(row_.cells[i]));
        }
        return {};
    }
    void fault(std::string what, std::string mend) {
        faults_.push_back({file_, row_.line, 0, std::move(what), std::move(mend)});
    }

    Person person() {
        Person person;
        person.id = cell("id");
        person.name = cell("name");
        person.badge = cell("badge");
        person.language = cell("language");
        person.endorsements = words_of(cell("endorsements"));
        person.extension = cell("extension");
        person.competence = cell("competence");
        read_duties(person);
        read_listing(person);
        check(person);
        return person;
    }

  private:
    void read_duties(Person& person) {
        for (const auto& name : words_of(cell("duties"))) {
            const auto duty = duty_named(name);
            if (duty) {
                person.duties.push_back(*duty);
            } else {
                fault("there is no duty \"" + name + "\"",
                      "write operator, trainer, evaluator, supervisor, mechanic, author or "
                      "auditor");
            }
        }
        if (person.duties.empty()) fault("the person has no duty", "give at least one");
    }
    void read_listing(Person& person) {
        const std::string until = cell("listed_until");
        if (until.empty()) return;
        const auto date = parse_date(until);
        if (date.ok()) {
            person.listed_until = date.value();
        } else {
            fault("\"" + until + "\" is no date", "write it as 2028-01-31");
        }
    }
    void check(const Person& person) {
        if (row_.cells.size() != header_.cells.size()) {
            fault("the row has " + std::to_string(row_.cells.size()) + " cells, the header " +
                      std::to_string(header_.cells.size()),
                  "give every row as many");
        }
        if (!is_id(person.id)) {
            fault("\"" + person.id + "\" is no id", "write lower-case words joined by hyphens");
        }
        if (person.name.empty()) fault("the name is missing", "write it");
        if (person.badge.empty()) fault("the badge is missing", "write it");
        if (!is_pack_language(person.language)) {
            fault("the content has no language \"" + person.language + "\"", "write en or es");
        }
    }

    const std::string& file_;
    const CsvRow& header_;
    const CsvRow& row_;
    Faults& faults_;
};

void check_header(const std::string& file, const CsvRow& header, Faults& faults) {
    const auto& cells = header.cells;
    for (const auto& name : cells) {
        if (std::find(kColumns.begin(), kColumns.end(), name) == kColumns.end()) {
            faults.push_back({file, header.line, 0, "there is no column \"" + name + "\"",
                              "see holdpin people import --help"});
        }
    }
    for (std::size_t i = 0; i < kMustColumns; ++i) {
        if (std::find(cells.begin(), cells.end(), kColumns[i]) == cells.end()) {
            faults.push_back({file, header.line, 0,
                              "the column \"" + std::string(kColumns[i]) + "\" is missing",
                              "add it to the header"});
        }
    }
}

}  // namespace

std::vector<Person> people_of_csv(const std::string& file, std::string_view text, Faults& faults) {
    std::vector<Person> people;
    const auto rows = read_csv(text);
    if (!rows || rows.value().empty()) {
        const std::string what = rows ? "the table is empty"
                                      : rows.error().where + ": " + rows.error().what;
        faults.push_back({file, 0, 0, what, "write a header and one row a person"});
        return people;
    }
    const CsvRow& header = rows.value().front();
    check_header(file, header, faults);
    if (!faults.empty()) return people;
    std::set<std::string> seen;
    for (std::size_t i = 1; i < rows.value().size(); ++i) {
        RowReader reader(file, header, rows.value()[i], faults);
        people.push_back(reader.person());
        for (const auto& unique : {people.back().id, "badge " + people.back().badge}) {
            if (!seen.insert(unique).second) reader.fault(unique + " stands there twice", "");
        }
    }
    return people;
}

}  // namespace holdpin
