#include "danger_kinds.hpp"

namespace holdpin {
namespace {

constexpr const char* kMendsGas = "H-1435";  // who may repair what carries gas, and lock out
constexpr const char* kReturns = "H-1006";   // who may return machines, and lock out
constexpr const char* kDrives = "H-1042";
constexpr const char* kLockoutOperator = "H-1187";
constexpr const char* kOtherOperator = "H-1093";

constexpr int kHalf = 10'000;  // as many again are made without the kiosk, in work_test.cpp

const std::vector<std::string> kEveryMachine{"SW-14", "SW-15", "BW-03", "LT-21", "LT-22"};

Taste alarm_taste() {
    Taste taste;
    taste.badges = {kDrives, kReturns, kReturns, kOtherOperator};
    taste.wants = {{"floor", {"help", "help", "sign-on", "machine:*", "desk", "sign-off"}},
                   {"emergency", {"alarm:*", "sheet:carbon-monoxide", "symptoms"}},
                   {"sheet/carbon-monoxide/", {"next"}},
                   {"sheet/carbon-monoxide", {"air-alarm"}},
                   {"air-alarm/room", {"room:*"}},
                   {"symptoms/", {"ill:*", "room:*"}},
                   {"/counting", {"head:*", "counted", "counted"}},
                   {"/airing", {"enter", "enter", "enter", "door:*", "engine", "next"}},
                   {"/entering", {"read", "read", "sign-on", "back"}},
                   {"sheet/", {"back"}},
                   {"report/machine", {"back"}},
                   {"no-start/machine", {"back"}},
                   {"/ended", {"done"}},
                   {"desk/rooms", {"room:*"}},
                   {"room-air/", {"reading", "reading", "alarm", "door:*", "back"}},
                   {"desk", {"desk:rooms", "desk:rooms", "sign-off"}},
                   {"machine/", {"take", "back", "back"}}};
    return taste;
}

Taste no_start_taste() {
    Taste taste;
    taste.badges = {kDrives, kMendsGas, kReturns, kOtherOperator};
    taste.wants = {{"floor", {"help", "sign-on", "desk", "desk", "desk", "machine:*", "sign-off"}},
                   {"emergency", {"no-start", "back", "back", "back", "back"}},
                   {"no-start/machine", {"report:*"}},
                   {"report/machine", {"back"}},
                   {"sheet/no-start", {"secure", "secure", "back"}},
                   {"no-start/secured", {"stopped", "valve", "key", "air", "main", "main"}},
                   {"tag/", {"main", "back"}},
                   {"sheet/", {"back"}},
                   {"desk/findings", {"finding:"}},
                   {"desk/finding/", {"repair", "recheck", "return"}},
                   {"desk/recheck", {"fine", "fine", "not-fine"}},
                   {"desk/", {"tag-off"}},
                   {"desk", {"desk:findings", "desk:findings", "desk:findings", "sign-off"}},
                   {"machine/", {"take", "put-tag", "read-tag", "back"}},
                   {"tag-check/", {"tag:there"}}};
    return taste;
}

Taste tag_taste() {
    Taste taste;
    taste.badges = {kDrives, kMendsGas, kReturns, kOtherOperator, kLockoutOperator};
    taste.wants = {{"floor", {"help", "sign-on", "machine:*", "machine:*", "desk", "sign-off"}},
                   {"emergency", {"report", "no-start", "back", "back"}},
                   {"sheet/", {"back"}},
                   {"report/machine", {"report:*"}},
                   {"report/what/", {"what:*"}},
                   {"machine/", {"put-tag", "read-tag", "jobs", "walk", "take", "back"}},
                   {"handed/", {"give-back"}},
                   {"jobs/", {"tag-again", "back"}},
                   {"tag-check/", {"tag:there", "tag:there", "tag:there", "tag:none"}},
                   {"tag/", {"main", "main", "print", "back"}},
                   {"round/", {"reading:*", "next", "back"}},
                   {"review/", {"withdraw:*", "finding:*", "back", "sign"}},
                   {"desk/findings", {"finding:*"}},
                   {"desk/finding/", {"repair", "recheck", "return"}},
                   {"desk/recheck", {"fine"}},
                   {"desk/", {"tag-off", "tag-again:*"}},
                   {"desk", {"desk:findings", "sign-off"}}};
    return taste;
}

Taste job_taste(const char* job) {
    Taste taste;
    taste.badges = {kDrives, kReturns, kLockoutOperator};
    taste.wants = {{"floor", {"sign-on", "machine:*", "machine:*", "machine:*", "sign-off"}},
                   {"machine/", {"jobs", "jobs", "work", "work", "lower", "put-tag", "read-tag"}},
                   {"handed/", {"jobs", "give-back"}},
                   {"jobs/", {job, "work:hopper-down"}},
                   {"report/machine", {"back"}},
                   {"no-start/machine", {"back"}},
                   {"emergency", {"back"}},
                   {"sheet/", {"back"}},
                   {"/which-way", {"reply:which-way:on-peg"}},
                   {"/pick", {"reply:pick:chosen:*"}},
                   {"/soap", {"reply:soap:dry", "reply:*"}},
                   {"/where", {"reply:where:down", "reply:*"}},
                   {"/stow-left", {"reply:stow-left:out", "reply:*"}},
                   {"/stow-right", {"reply:stow-right:out", "reply:*"}},
                   {"/hopper", {"reply:hopper:down", "reply:*"}},
                   {"/rinse", {"reply:rinse:nothing", "reply:*"}},
                   {"work/", {"reply:", "reply:", "reply:", "reply:", "reply:", "reply:*"}},
                   {"tag-check/", {"tag:there"}}};
    return taste;
}

Taste every_taste() {
    Taste taste;
    taste.badges = {kDrives, kLockoutOperator, kLockoutOperator, kMendsGas, kReturns,
                    kReturns};
    taste.wants = {
        {"floor", {"sign-on", "sign-on", "machine:SW-14", "machine:*", "machine:*", "desk", "help",
                   "sign-off"}},
        {"emergency", {"alarm:*", "sheet:carbon-monoxide", "symptoms", "no-start", "back", "back",
                       "back"}},
        {"report/machine", {"back", "back", "back", "back", "report:*"}},
        {"no-start/machine", {"back", "back", "report:*"}},
        {"sheet/carbon-monoxide/", {"next"}},
        {"sheet/carbon-monoxide", {"air-alarm", "back", "back"}},
        {"sheet/", {"back"}},
        {"/counting", {"head:*", "counted"}},
        {"/airing", {"enter", "door:*", "back", "back"}},
        {"/entering", {"read", "read", "sign-on", "back"}},
        {"machine/", {"jobs", "jobs", "work", "lockout", "lockout", "take", "put-tag", "read-tag",
                      "lower", "back"}},
        {"handed/", {"jobs", "back"}},
        {"jobs/", {"work:drain", "work:exchange", "work:exchange", "work:hopper-down", "lockout",
                   "lockout"}},
        {"/which-way", {"reply:which-way:on-peg"}},
        {"/where", {"reply:where:down", "reply:*"}},
        {"/soap", {"reply:soap:dry", "reply:*"}},
        {"work/", {"reply:", "reply:", "reply:", "reply:*", "back"}},
        {"desk", {"desk:findings", "desk:rooms", "sign-off"}}};
    return taste;
}

}  // namespace

Kind air_alarm_kind() {
    return {"air alarm", alarm_taste(), kEveryMachine,
            {"air-alarm-raised", "heads-counted", "air-read", "air-alarm-lifted",
            "symptoms-reported", "door-set"}};
}

Kind no_start_kind() {
    return {"no-start", no_start_taste(), kEveryMachine,
            {"finding-entered", "finding-secured", "tag-issued", "repair-stated", "recheck-done",
            "returned-to-service"},
            30};
}

Kind tag_kind() {
    return {"tag", tag_taste(), {"SW-14", "LT-22"},
            {"tag-issued", "tag-printed", "tag-put-up", "tag-read", "finding-withdrawn",
            "returned-to-service"}};
}

Kind exchange_kind() {
    return {"exchange", job_taste("work:exchange"), kEveryMachine,
            {"work-opened", "work-step-done", "work-stopped", "work-finished", "cylinder-set"},
            5, kHalf};
}

Kind drain_kind() {
    return {"drain", job_taste("work:drain"), kEveryMachine,
            {"work-opened", "work-step-done", "work-stopped", "work-finished", "floor-wet",
            "lockout-opened"},
            5, kHalf};
}

Kind everything_kind() {
    return {"everything", every_taste(), kEveryMachine,
            {"work-opened", "work-step-done", "lockout-opened",
            "lockout-closed", "air-alarm-raised", "heads-counted",
            "finding-entered", "tag-issued", "tag-put-up"}};
}

}  // namespace holdpin
