#include "binder/papers_summary.hpp"

#include <algorithm>
#include <iterator>

#include "binder/table.hpp"

namespace holdpin {
namespace {

constexpr int kDaysOfWeek = 7;
constexpr int kMonday = 4;  // 1970-01-01 was a Thursday; day 4 was a Monday

std::int64_t week_of_day(std::int64_t day) {
    const std::int64_t shifted = day - kMonday;
    return shifted >= 0 ? shifted / kDaysOfWeek : (shifted - kDaysOfWeek + 1) / kDaysOfWeek;
}
std::int64_t last_day_of(std::int64_t week) { return week * kDaysOfWeek + kMonday + 6; }

int months_of(const Pack& pack, const std::string& machine_class, const std::string& topic) {
    const MachineClass* found = pack.machine_class(machine_class);
    if (found == nullptr) return 0;
    for (const Topic& one : found->topics) {
        if (one.id == topic) return one.valid_months;
    }
    return 0;
}

std::vector<std::int64_t> closed_by(const Entry& entry) {
    if (entry.kind == "finding-withdrawn") return {entry.about};
    if (entry.kind != "returned-to-service") return {};
    std::vector<std::int64_t> all{entry.about};
    const auto at = entry.data.find("findings");
    if (at == entry.data.end() || !at->is_array()) return all;
    for (const auto& n : *at) {
        if (n.is_number_integer()) all.push_back(n.get<std::int64_t>());
    }
    return all;
}

}  // namespace

void SummaryCounts::add(const Entry& entry, bool counted) {
    const std::int64_t day = day_number(local_date(entry));
    const std::int64_t week = week_of_day(day);
    if (entry.kind == "finding-entered") opened_[entry.n] = day;
    for (const std::int64_t finding : closed_by(entry)) closed_.try_emplace(finding, day);
    if (entry.kind == "evaluated" && entry.data.value("passed", false)) {
        const auto on = parse_date(text_of(entry.data, "on"));
        for (const std::string& topic : list_of(entry.data, "topics")) {
            evaluated_[{text_of(entry.data, "person"), text_of(entry.data, "class"), topic}].insert(
                on.ok() ? day_number(on.value()) : day);
        }
    }
    if (!counted) return;
    if (last_week_ < first_week_) first_week_ = week;
    first_week_ = std::min(first_week_, week);
    last_week_ = std::max(last_week_, week);
    last_ms_ = std::max(last_ms_, entry.at_ms);
    ++kinds_[entry.kind];
    if (entry.kind == "round-signed") ++counts_[week].rounds;
    if (entry.kind == "release-given") ++counts_[week].releases;
}

int SummaryCounts::of_kind(const std::string& kind) const {
    const auto at = kinds_.find(kind);
    return at == kinds_.end() ? 0 : at->second;
}

void SummaryCounts::count_currency(std::vector<Week>& weeks) const {
    for (const auto& [who, days] : evaluated_) {
        const int months = months_of(pack_, std::get<1>(who), std::get<2>(who));
        for (std::size_t i = 0; i < weeks.size(); ++i) {
            const std::int64_t end = last_day_of(first_week_ + static_cast<std::int64_t>(i));
            const auto after = days.upper_bound(end);
            if (after == days.begin() || months == 0) continue;
            const Date due = add_months(date_of_day(*std::prev(after)), months);
            ++(day_number(due) >= end ? weeks[i].in_date : weeks[i].out_of_date);
        }
    }
}

std::vector<SummaryCounts::Week> SummaryCounts::weeks() const {
    std::vector<Week> weeks;
    for (std::int64_t week = first_week_; week <= last_week_; ++week) {
        const auto at = counts_.find(week);
        weeks.push_back(at == counts_.end() ? Week{} : at->second);
    }
    const auto count = static_cast<std::int64_t>(weeks.size());
    for (const auto& [finding, day] : opened_) {
        const std::int64_t from = week_of_day(day) - first_week_;
        const auto at = closed_.find(finding);
        const std::int64_t to = at == closed_.end() ? count : week_of_day(at->second) - first_week_;
        if (from >= 0 && from < count) ++weeks[static_cast<std::size_t>(from)].opened;
        if (to >= 0 && to < count) {
            Week& week = weeks[static_cast<std::size_t>(to)];
            ++week.closed;
            week.days.push_back(static_cast<int>(at->second - day));
        }
        for (std::int64_t i = std::max<std::int64_t>(from, 0); i < std::min(to, count); ++i) {
            ++weeks[static_cast<std::size_t>(i)].open;
        }
    }
    count_currency(weeks);
    return weeks;
}

namespace {

using Week = SummaryCounts::Week;
using Value = double (*)(const Week&);

double median_days(const Week& week) {
    std::vector<int> days = week.days;
    if (days.empty()) return 0;
    std::sort(days.begin(), days.end());
    const std::size_t half = days.size() / 2;
    return days.size() % 2 == 1 ? days[half] : (days[half - 1] + days[half]) / 2.0;
}

// Below these the ticks of an axis would be parts of a week or of a finding.
constexpr double kLeastWeeks = 6;
constexpr double kLeastHeight = 5;

struct Curve {
    const char* name;
    ChartStyle style;
    Value value;
};

PaperChart chart_of(const PaperVoice& voice, const SummaryCounts& counts,
                    const std::vector<Curve>& curves, const char* unit) {
    const auto weeks = counts.weeks();
    PaperChart block;
    block.height_mm = 62;
    double most = kLeastHeight;
    for (const Curve& curve : curves) {
        ChartLine line{voice.say(curve.name), curve.style, false, {}};
        for (std::size_t i = 0; i < weeks.size(); ++i) {
            line.points.push_back({static_cast<double>(i + 1), curve.value(weeks[i])});
            most = std::max(most, line.points.back().y);
        }
        block.chart.lines.push_back(std::move(line));
    }
    const std::string first =
        voice.date(date_of_day(last_day_of(counts.first_week()) - kDaysOfWeek + 1));
    block.chart.x = {voice.say("papers.weeks-from", {{"date", first}}), "", 1,
                     std::max(kLeastWeeks, static_cast<double>(weeks.size())), ChartTicks::decimal};
    block.chart.left = {voice.say(unit), "", 0, most * 1.15, ChartTicks::decimal};
    return block;
}

PaperFields totals(const PaperVoice& voice, const SummaryCounts& counts) {
    constexpr std::pair<const char*, const char*> kKinds[] = {
        {"papers.total-rounds", "round-signed"},   {"papers.total-releases", "release-given"},
        {"papers.total-findings", "finding-entered"}, {"papers.total-repairs", "repair-stated"},
        {"papers.total-returns", "returned-to-service"},
        {"papers.total-overrides", "override-placed"},
        {"papers.total-evaluations", "evaluated"}, {"papers.total-refused", "sign-refused"}};
    PaperFields fields;
    for (const auto& [key, kind] : kKinds) {
        fields.rows.push_back({voice.say(key), std::to_string(counts.of_kind(kind))});
    }
    return fields;
}

PaperTable week_table(const PaperVoice& voice, const SummaryCounts& counts) {
    PaperTable table{{2.4, 1.4, 1.4, 1.4, 1.4, 1.8, 1.6, 1.8},
                     {voice.say("papers.week"), voice.say("papers.col-rounds"),
                      voice.say("papers.col-opened"), voice.say("papers.col-closed"),
                      voice.say("papers.col-open"), voice.say("papers.col-days"),
                      voice.say("papers.col-in-date"), voice.say("papers.col-out-of-date")},
                     {}};
    std::int64_t week = counts.first_week();
    for (const Week& one : counts.weeks()) {
        const Date monday = date_of_day(last_day_of(week++) - kDaysOfWeek + 1);
        const auto half_days = static_cast<std::int64_t>(median_days(one) * 10);
        table.rows.push_back({voice.date(monday), std::to_string(one.rounds),
                              std::to_string(one.opened), std::to_string(one.closed),
                              std::to_string(one.open),
                              one.days.empty() ? "\u2013" : tenths_text(half_days),
                              std::to_string(one.in_date), std::to_string(one.out_of_date)});
    }
    return table;
}

PaperFields head_fields(const PaperVoice& voice, const std::optional<Seal>& seal) {
    const BinderScope& scope = voice.material().scope;
    const auto day = [&](const std::optional<Date>& date, const char* open) {
        return date ? voice.date(*date) : voice.say(open);
    };
    PaperFields fields;
    fields.rows = {{voice.say("papers.employer"), voice.employer()},
                   {voice.say("papers.period"),
                    voice.say("papers.from-to", {{"from", day(scope.from, "papers.beginning")},
                                                 {"to", day(scope.to, "papers.today")}})}};
    if (seal) {
        fields.rows.push_back({voice.say("papers.sealed"), std::to_string(seal->size)});
        fields.rows.push_back({voice.say("papers.root"), hex(seal->root)});
    }
    return fields;
}

PaperPart summary_part(const PaperVoice& voice, const SummaryCounts& counts,
                       const std::optional<Seal>& seal) {
    using enum ChartStyle;
    const std::string title = voice.say("papers.summary");
    PaperPart part = voice.part(title);
    part.blocks = {
        PaperHeading{title, 1},
        head_fields(voice, seal),
        PaperHeading{voice.say("papers.total"), 2},
        totals(voice, counts),
        PaperHeading{voice.say("papers.chart-rounds"), 2},
        chart_of(voice, counts,
                 {{"papers.curve-rounds", solid, [](const Week& w) { return w.rounds + 0.0; }},
                  {"papers.curve-releases", dashed,
                   [](const Week& w) { return w.releases + 0.0; }}},
                 "papers.a-week"),
        PaperHeading{voice.say("papers.chart-findings"), 2},
        chart_of(voice, counts,
                 {{"papers.curve-opened", solid, [](const Week& w) { return w.opened + 0.0; }},
                  {"papers.curve-closed", dashed, [](const Week& w) { return w.closed + 0.0; }},
                  {"papers.curve-open", dotted, [](const Week& w) { return w.open + 0.0; }}},
                 "papers.findings"),
        PaperHeading{voice.say("papers.chart-days"), 2},
        chart_of(voice, counts, {{"papers.curve-days", solid, median_days}}, "papers.days"),
        PaperHeading{voice.say("papers.chart-currency"), 2},
        chart_of(voice, counts,
                 {{"papers.curve-in-date", solid, [](const Week& w) { return w.in_date + 0.0; }},
                  {"papers.curve-out-of-date", dashed,
                   [](const Week& w) { return w.out_of_date + 0.0; }}},
                 "papers.evaluations"),
        PaperHeading{voice.say("papers.chart-numbers"), 2},
        week_table(voice, counts),
        PaperParagraph{voice.say("papers.summary-basis"), true}};
    return part;
}

}  // namespace

Result<Paper> summary_paper(const BinderMaterial& material, const NameHashes& names,
                            const SummaryCounts& counts, const std::optional<Seal>& seal) {
    const auto languages = paper_languages(material.content.site.language);
    const PaperVoice first(material, names, languages.front());
    Paper paper;
    paper.title = first.say("papers.summary");
    paper.author = first.site();
    paper.at_ms = counts.last_ms();
    for (const std::string& language : languages) {
        paper.parts.push_back(
            summary_part(PaperVoice(material, names, language), counts, seal));
    }
    return paper;
}

}  // namespace holdpin
