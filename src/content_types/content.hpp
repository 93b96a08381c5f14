// The typed content: what authors write in TOML, after it was read and checked as a whole.
// Plain data, no reading (content/ reads) and no decisions (rules/ decides).
// How each file is written stands in content/FORMAT.md.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/local_time.hpp"
#include "content_types/procedure.hpp"
#include "content_types/words.hpp"
#include "content_types/work.hpp"

namespace holdpin {

// ---- why a rule applies -------------------------------------------------------------------

enum class FootingKind {
    law,       // a statute or regulation binds here
    guidance,  // a regulator or public body advises it
    standard,  // a consensus standard
    maker,     // the machine's own manual
    site,      // the site has adopted it
};

// The sources of the pack, named once and cited by id.
struct Footing {
    std::string id;
    FootingKind kind = FootingKind::site;
    bool trucks_only = false;  // binds powered industrial trucks only; elsewhere the site adopts it
    std::string region;        // "US", "CA", "GB", "EU" or "any"
    std::string status;        // R read, R2 secondary copy, M from memory, CP common practice
    Text citation;

    // What it is for a class of machine: a truck rule is `site` for a machine that is no truck.
    FootingKind kind_for(bool is_truck) const {
        return trucks_only && !is_truck ? FootingKind::site : kind;
    }
};

// ---- guides -------------------------------------------------------------------------------

struct Step {
    std::string id;
    std::vector<Warning> warnings;  // shown before the step
    Text action;
    Text key_point;
    Text reason;
    Picture picture;
    bool body_in_zone = false;  // a part of the body enters a danger zone: needs lockout
    std::string footing;
};

struct Guide {
    std::string id;
    Text title;
    Text intro;
    std::vector<std::string> topics;  // what a reader is instructed in
    std::string quiz;
    std::vector<Step> steps;
};

// ---- quizzes ------------------------------------------------------------------------------

struct Choice {
    Text text;
    bool right = false;
};

struct Question {
    std::string id;
    Text ask;
    Text why;  // shown after answering
    bool must_pass = false;
    std::vector<Choice> choices;  // exactly one is right
    std::string footing;
};

struct Quiz {
    std::string id;
    Text title;
    int draw = 6;           // questions asked in one sitting; all must-pass ones come first
    int pass_percent = 80;  // cut for the rest
    Text cut_basis;         // how the cut was set
    std::vector<Question> questions;
};

// ---- rounds -------------------------------------------------------------------------------

enum class Outcome { fine, note, limit, stop };  // see the vocabulary; ordered by weight

// What kind of trouble a finding is; some kinds can never be overridden.
enum class Hazard {
    none,
    lp_leak,
    lp_fuel,
    brake,
    steering,
    hopper_support,
    air,
    guard,
    electrical,
};

struct Reading {
    std::string id;
    Text label;
    Outcome outcome = Outcome::fine;
    std::string drawing;  // assets/illustrations/tiles/<drawing>.svg; may be empty
    Text finding;         // headline of the finding; empty only where the outcome is fine
    std::string sheet;    // emergency sheet to offer at once; may be empty
};

enum class NumberCheck { none, not_below_last };

// A point that is answered by a number, in tenths of its unit.
struct NumberPoint {
    std::string unit;  // "h", "%"
    std::int64_t min_tenths = 0;
    std::int64_t max_tenths = 0;
    NumberCheck check = NumberCheck::none;
    std::int64_t most_rise_tenths = 0;  // above the last value; 0 = not checked
    Outcome outside = Outcome::note;    // when below `low_tenths` or risen too far
    std::int64_t low_tenths = -1;       // below this is a finding; -1 = not checked
    Text finding;
    std::string keeps;  // "hours" or "fuel": which value of the machine it updates
};

struct Point {
    std::string id;
    Text question;
    Text look;     // how and where to look
    Picture picture;
    std::string topic;
    std::string footing;
    Hazard hazard = Hazard::none;
    bool takeover = false;  // asked again when a machine is taken over within the shift
    Text why;               // why a finding here matters; empty only where none is limit or stop
    std::vector<Warning> warnings;
    std::vector<Reading> readings;      // 3 or 4, or none where a number is asked
    std::optional<NumberPoint> number;

    bool can_stop() const;  // some reading holds the machine at once
};

struct Station {
    std::string id;
    Text name;
    Text place;  // caption of the picture
    bool engine = false;  // the engine runs here
    std::vector<Point> points;
};

enum class RoundKind { before, after };

struct Round {
    std::string id;
    RoundKind kind = RoundKind::before;
    std::string machine_class;
    Text title;
    std::vector<Station> stations;

    std::size_t point_count() const;
    // Station and point by their running number; `index` < point_count().
    std::pair<const Station*, const Point*> at(std::size_t index) const;
    const Point* find(std::string_view point_id) const;
};

// ---- emergency sheets ---------------------------------------------------------------------

struct Sheet {
    std::string id;
    int order = 0;  // on the emergency page, from 1
    Text title;
    Text first;               // the one thing to do now
    std::vector<Text> act;    // in order
    std::vector<Text> never;
    Text tell;                // what to tell helpers and medics
    std::string drawing;
    std::string footing;
    bool eyewash = false;     // says where the nearest one is, before all else
};

// ---- classes ------------------------------------------------------------------------------

enum class TopicKind { truck, workplace };

struct Topic {
    std::string id;
    Text name;
    TopicKind kind = TopicKind::truck;
    std::string guide;  // read at the kiosk; empty: a trainer instructs in person
    std::string footing;
    int valid_months = 36;  // from the last evaluation
    std::vector<std::string> jobs;  // ids of works, or "lockout": whoever lapsed in it begins none
};

struct Part {
    std::string id;
    Text name;
};

// What the engines of a class put into the air, and burn. Litres of carbon monoxide a minute.
struct EngineFigures {
    double co_upper_lmin = 0;  // at work, without an in-date tailpipe test
    double burn_kg_h = 0;      // LP gas
    double cylinder_kg = 0;    // LP gas in a full one; 0: not said
    std::string footing;
};

// A raised hopper as its props carry it; see hazard/prop_load.hpp.
struct HopperFigures {
    double hopper_kg = 0;
    double arm_m = 0;
    double prop_m = 0;
    double prop_angle_deg = 0;
    double pin_mm = 0;
    int shear_planes = 2;
    double yield_mpa = 0;
    std::string footing;
};

// What cleaning an area takes; see hazard/run_plan.hpp.
struct WorkFigures {
    double solution_l = 0;
    double flow_lmin = 0;
    double recovery_l = 0;
    double pickup_percent = 0;
    double width_m = 0;
    double speed_kmh = 0;
    double overlap_percent = 0;
};

struct MachineClass {
    std::string id;
    Text name;
    Text short_name;
    bool is_truck = false;  // a powered industrial truck in the sense of US law
    bool has_engine = false;
    Procedure procedure;
    std::vector<Energy> energies;
    std::vector<Prop> props;  // none: no part of it is raised to work under
    std::vector<Topic> topics;
    std::vector<Part> parts;
    std::optional<EngineFigures> engine;  // with `has_engine` only
    std::optional<HopperFigures> hopper;
    std::optional<WorkFigures> work;
    std::string round_before;
    std::string round_after;
};

// ---- rulesets -----------------------------------------------------------------------------

enum class Lug { person, round, findings, room_air, service, locks, site };
inline constexpr int kLugCount = 7;

enum class Duty { operating, training, evaluating, supervising, repairing, authoring, auditing };

// What a person may do at the kiosk.
enum class Right {
    operate,            // be released a machine
    instruct,           // instruct in person and watch practice
    evaluate,           // evaluate in the workplace
    authorise,          // sign an authorisation
    decide_limit,       // set the limits of a `limit` finding
    return_to_service,  // end a machine's holds after repair and re-check
    override_hold,      // be one of the two signatures
    repair,             // state a repair
    place_lockout,
    manage_people,      // badges, PINs, duties
    read_records,
};

// One row of the hold table: what a hold code means to people.
struct HoldRule {
    std::string code;
    Lug lug = Lug::site;
    bool self = false;          // orange: the operator can act now
    bool overridable = false;
    std::vector<Duty> lifted_by;
    Text title;                 // headline, with {arguments}
    Text reason;
    Text lift;                  // who lifts it, and how
};

struct DutyRule {
    Duty duty = Duty::operating;
    Text name;
    std::vector<Right> rights;
};

// Stands among the kinds of the class that takes every kind no class names.
inline constexpr std::string_view kEveryKind = "*";

// How long records of some kinds are kept: names and free text are erased afterwards.
struct RetentionClass {
    std::string id;
    Text name;
    std::vector<std::string> kinds;  // of entries
    bool from_employment = false;    // counted from the end of employment; else from the entry
    int years = 0;
    bool purge = true;  // false: never purged with the rest
    Text why;
    Text who;  // sees it
    std::string footing;
};

// ---- sites --------------------------------------------------------------------------------

struct Shift {
    std::string id;
    Text name;
    int start_min = 0;  // local minute of day
    int end_min = 0;    // may be smaller than start: over midnight; 1440 = midnight
};

// A door or gate that lets air through while it is open: outdoor air, or that of another room. It
// is written in one of its two rooms only. A fan moves air one way while it runs.
struct Door {
    std::string id;
    Text name;
    double airflow_m3h = 0;  // without wind
    std::string leads_to;    // room; empty: outdoors
    bool fan = false;        // blows into what it leads to; as much outdoor air follows
};

struct Room {
    std::string id;
    Text name;
    double volume_m3 = 0;
    double airflow_m3h = 0;  // with every door shut
    double mixing = 1;       // K >= 1: 1 well mixed
    double area_m2 = 0;      // floor to be cleaned; 0: not said
    bool closed = false;     // closed to engines when the site is set up
    std::vector<Door> doors;
};

struct Machine {
    std::string plate;
    std::string machine_class;
    std::string room;
    std::int64_t hours_tenths = 0;
    int fuel_percent = 100;
    std::int64_t service_every_tenths = 0;  // 0: none
    std::int64_t service_done_tenths = 0;
    std::optional<Date> inspection_due;
    bool approved_as_truck = false;  // approved to a truck standard by a test laboratory
};

struct Drain {
    std::string id;
    Text name;
    std::string room;
    Text leads_to;
    std::string confirmed_by;  // person id; empty: not confirmed, not offered
    std::optional<Date> confirmed_on;
};

// Where cylinders may be changed: outdoors or well aired, away from traffic and ignition.
struct ExchangePlace {
    std::string id;
    Text name;
};

struct Person {
    std::string id;
    std::string name;
    std::string badge;
    std::string language;
    std::vector<Duty> duties;
    std::vector<std::string> endorsements;
    std::string extension;        // telephone; shown on refusals
    std::string competence;       // basis of competence of trainers and evaluators
    std::optional<Date> listed_until;  // trainers and evaluators: end of their listing
    std::string example_pin;      // example sites only
};

// Training that an example site's people bring along, dated back from the day of `init`.
struct ExampleRecord {
    std::string person;
    std::string machine_class;
    std::vector<std::string> topics;  // empty: all of the class
    int days_ago = 0;
    bool practised = true;
    bool evaluated = true;
    bool authorised = true;
    std::vector<std::string> rooms;  // condition: only here; empty: everywhere
    std::vector<std::string> shifts;
    std::string signed_by;
};

// The signing statement, accepted by an example site's people before it is set up.
struct ExampleStatement {
    std::string person;
    std::vector<std::string> languages;
};

// A tailpipe test that an example site's machine brings along, dated back from the day of `init`.
struct ExampleTailpipe {
    std::string machine;
    double co_lmin = 0;
    int days_ago = 0;
};

// A meter that the kiosk reads by itself, once a minute; see src/devices/FORMAT.md.
struct RoomMeter {
    std::string room;
    std::string instrument;  // what stands on it; in entries the instrument of its readings
    std::string host;
    int port = 502;
    int unit = 255;
    int register_number = 0;
    bool input = false;  // of the input registers; else of the holding registers
    double scale = 1;    // ppm of one step
};

// Levels of carbon monoxide at which the site acts. Shipped with their source, checked locally.
struct AirPolicy {
    double average_ppm = 35;    // over eight hours; 0: no forecast is made
    double ceiling_ppm = 200;   // at no time
    int least_minutes = 30;     // a shorter forecast holds the machine
    int doors_minutes = 30;     // after that a door counts as shut until it is read again
    int tailpipe_months = 6;    // how long a tailpipe test counts
    int symptoms_minutes = 60;  // within which two people ill in a room are an alarm
    std::string footing;
};

// How cylinders are kept and how long a stamp counts. Local rules differ and change.
struct CylinderPolicy {
    double limit_kg = 0;          // of gas, full and empty alike; 0: no register
    int first_years = 12;         // from manufacture
    int volumetric_years = 12;
    int proof_years = 10;
    int visual_years = 5;
    std::string footing;
};

struct SitePolicy {
    int pin_digits = 6;
    int idle_seconds = 180;           // without a touch, then sign-off
    int round_stale_minutes = 30;     // from signing to release
    int evaluation_warn_days = 30;
    int override_hours_max = 8;
    int quiz_retry_minutes = 0;
    int disk_floor_mb = 200;
    int hours_rise_max = 26;          // engine hours plausible between two rounds
    int clock_gap_hours = 72;         // a longer time without the kiosk is confirmed; 0: none is
    bool tag_names = true;            // a tag says who found what it tells
    bool reading_times = true;        // a signed round says when each of its readings was made
};

struct Site {
    std::string id;
    Text name;
    std::string employer;  // who certifies training; empty: the site's name stands for it
    bool example = false;
    std::string zone;
    std::string region;    // "US": whose law binds
    std::string language;  // of the floor when nobody is signed on
    std::string emergency_number;
    std::string supervisor_on_call;  // person id
    std::string units;     // "metric" or "us": what screens show
    Text eyewash;          // where the nearest one is, from this kiosk; may be empty
    SitePolicy policy;
    AirPolicy air;
    CylinderPolicy cylinders;
    std::vector<std::string> binder_folders;  // where the auditor's screen may put binders
    std::vector<Shift> shifts;
    std::vector<Room> rooms;
    std::vector<RoomMeter> meters;
    std::vector<Machine> machines;
    std::vector<Drain> drains;
    std::vector<ExchangePlace> exchange_places;
    std::vector<Person> people;
    std::vector<ExampleRecord> records;
    std::vector<ExampleTailpipe> tailpipes;
    std::vector<ExampleStatement> statements;
};

// ---- the whole ----------------------------------------------------------------------------

// Everything that is not one site's own.
struct Pack {
    std::vector<Footing> footings;
    std::vector<HoldRule> holds;
    std::vector<DutyRule> duties;
    std::vector<RetentionClass> retention;  // may be empty: then nothing is purged
    std::vector<MachineClass> classes;
    std::vector<Guide> guides;
    std::vector<Quiz> quizzes;
    std::vector<Round> rounds;
    std::vector<Sheet> sheets;
    std::vector<Work> works;
    std::map<std::string, Text> strings;   // screen texts by key
    std::map<std::string, std::string> digests;  // "round/scrubber-before-use" -> SHA-256 hex

    const Footing* footing(std::string_view id) const;
    const HoldRule* hold(std::string_view code) const;
    const MachineClass* machine_class(std::string_view id) const;
    const Guide* guide(std::string_view id) const;
    const Quiz* quiz(std::string_view id) const;
    const Round* round(std::string_view id) const;
    const Sheet* sheet(std::string_view id) const;
    const Work* work(std::string_view id) const;
    // The class that takes a kind of entry, or null where there are no classes.
    const RetentionClass* retention_of(std::string_view kind) const;
    bool grants(const std::vector<Duty>& duties, Right right) const;
    // The digest of an item, empty where there is none: "guide/co-and-ventilation".
    std::string digest(std::string_view kind, std::string_view id) const;
};

struct Content {
    Pack pack;
    Site site;

    const Machine* machine(std::string_view plate) const;
    const Person* person(std::string_view id) const;
    const Room* room(std::string_view id) const;
    const Shift* shift(std::string_view id) const;
};

// ---- names of the enumerations, as files and entries write them -----------------------------

std::string_view name_of(FootingKind value);
std::string_view name_of(Outcome value);
std::string_view name_of(Hazard value);
std::string_view name_of(Lug value);
std::string_view name_of(Duty value);
std::string_view name_of(Right value);
std::string_view name_of(SignalWord value);
std::string_view name_of(RoundKind value);
std::string_view name_of(TopicKind value);

std::optional<FootingKind> footing_kind_named(std::string_view name);
std::optional<Outcome> outcome_named(std::string_view name);
std::optional<Hazard> hazard_named(std::string_view name);
std::optional<Lug> lug_named(std::string_view name);
std::optional<Duty> duty_named(std::string_view name);
std::optional<Right> right_named(std::string_view name);

}  // namespace holdpin
