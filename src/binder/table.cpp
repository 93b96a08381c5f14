#include "binder/table.hpp"

#include <algorithm>

#include "records/privacy.hpp"

namespace holdpin {
namespace {

using nlohmann::json;

// Whether it is about the person and the machine of the scope.
bool is_of_subject(const Entry& entry, const BinderScope& scope) {
    if (!scope.person.empty() && !names(entry, scope.person)) return false;
    const auto machine = entry.data.find("machine");
    return scope.machine.empty() || (machine != entry.data.end() && *machine == scope.machine);
}

}  // namespace

bool TableForm::takes(std::string_view kind) const {
    return std::any_of(kinds.begin(), kinds.end(), [&](std::string_view known) {
        if (!known.ends_with('*')) return known == kind;
        return kind.starts_with(known.substr(0, known.size() - 1));
    });
}

LocalTime local_time(const Entry& entry, std::int64_t ms) {
    constexpr std::int64_t kDayMs = 86'400'000;
    const std::int64_t local = ms + std::int64_t{entry.offset_min} * 60'000;
    const std::int64_t in_day = ((local % kDayMs) + kDayMs) % kDayMs;
    const std::int64_t day = (local - in_day) / kDayMs;
    LocalTime time;
    time.date = date_of_day(day);
    time.minute = static_cast<int>(in_day / 60'000);
    time.second = static_cast<int>(in_day / 1000 % 60);
    time.weekday = static_cast<int>(((day + 3) % 7 + 7) % 7);
    time.offset_min = entry.offset_min;
    return time;
}

Date local_date(const Entry& entry) { return local_time(entry, entry.at_ms).date; }

bool is_in_period(const Entry& entry, const BinderScope& scope) {
    const Date day = local_date(entry);
    return (!scope.from || day >= *scope.from) && (!scope.to || day <= *scope.to);
}

bool is_in_scope(const Entry& entry, const BinderScope& scope) {
    return is_in_period(entry, scope) && is_of_subject(entry, scope);
}

Result<void> Tables::begin() {
    for (TableSink* sink : sinks_) {
        for (const TableForm& form : table_forms()) TRY(sink->begin(form));
        TRY(sink->begin(currency_form()));
    }
    return {};
}

Result<void> Tables::add(const Entry& entry) {
    lookup_.learn(entry);
    if (!wants(entry)) return {};
    for (const TableForm& form : table_forms()) {
        if (form.takes(entry.kind)) TRY(add_rows(form, entry));
    }
    if (const auto failure = lookup_.failure()) return *failure;
    return {};
}

// A note of disagreement is about whom and what the disputed entry is about, too.
bool Tables::wants(const Entry& entry) {
    if (is_in_scope(entry, scope_)) return true;
    if (entry.kind != "disagreement-noted" || !is_in_period(entry, scope_)) return false;
    const auto disputed = lookup_.disputed(entry.about);
    return disputed && is_of_subject(*disputed, scope_);
}

Result<void> Tables::add_rows(const TableForm& form, const Entry& entry) {
    const auto add = [&](const json& part) -> Result<void> {
        const RowSource source{entry, part, lookup_};
        Cells cells;
        cells.reserve(form.columns.size());
        for (const Column& column : form.columns) {
            cells.push_back(column.cell(source, column.key));
        }
        return row(form, cells);
    };
    if (form.rows_of == nullptr) return add(entry.data);
    const auto list = entry.data.find(form.rows_of);
    if (list == entry.data.end() || !list->is_array()) return {};
    for (const json& part : *list) {
        if (part.is_object()) TRY(add(part));
    }
    return {};
}

Result<void> Tables::row(const TableForm& form, const Cells& cells) {
    for (TableSink* sink : sinks_) TRY(sink->row(form, cells));
    return {};
}

Result<void> Tables::finish() {
    for (TableSink* sink : sinks_) TRY(sink->finish());
    return {};
}

}  // namespace holdpin
