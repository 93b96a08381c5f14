// Small flows that others are put together from: read a message, pick one, pick several, type a
// text, sign with a PIN. Each hands its result to a continuation, which says what comes next.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "flows/session.hpp"

namespace holdpin {

using Then = std::function<Result<Next>(Session&)>;
using ThenText = std::function<Result<Next>(Session&, const std::string&)>;
using ThenMany = std::function<Result<Next>(Session&, const std::vector<std::string>&)>;
using ThenPerson = std::function<Result<Next>(Session&, const Person&)>;

// Something to read; main or back goes on with `then`, or simply back.
class MessageFlow final : public Flow {
  public:
    MessageFlow(LugState mark, std::string heading, std::vector<std::string> lines,
                Then then = nullptr, std::string main_label = "")
        : body_{mark, std::move(heading), std::move(lines)},
          then_(std::move(then)),
          main_label_(std::move(main_label)) {}
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;
    bool is_piece() const override { return true; }

  private:
    MessageBody body_;
    Then then_;
    std::string main_label_;
};

// One of a few tiles. `then` gets the tile's id; `on_back`, where given, takes the place of going
// back (what is already entered cannot be taken back by leaving).
class PickFlow final : public Flow {
  public:
    PickFlow(std::string page_id, GridBody body, ThenText then, Then on_back = nullptr)
        : page_id_(std::move(page_id)),
          body_(std::move(body)),
          then_(std::move(then)),
          on_back_(std::move(on_back)) {}
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;
    bool is_piece() const override { return true; }

  private:
    std::string page_id_;
    GridBody body_;
    ThenText then_;
    Then on_back_;
};

// Rows to be ticked. `all` demands every row before the main action.
struct TickList {
    std::string page_id;
    std::string heading;
    std::string remark;
    std::vector<Row> rows;  // those with `chosen` are ticked at first
    std::string main_label;
    std::string main_second;
    bool all = false;
    bool none_allowed = false;
};
// A row for each id, with the text whose key is `words` and the id.
template <typename Ids>
std::vector<Row> rows_to_tick(const Say& say, const std::string& words, const Ids& ids) {
    std::vector<Row> rows;
    for (const std::string_view id : ids) {
        Row row;
        row.id = std::string(id);
        row.label = say(words + row.id);
        rows.push_back(std::move(row));
    }
    return rows;
}
class TickFlow final : public Flow {
  public:
    TickFlow(TickList list, ThenMany then) : list_(std::move(list)), then_(std::move(then)) {}
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;
    bool is_piece() const override { return true; }

  private:
    TickList list_;
    ThenMany then_;
};

// A text from the keyboard. Blank texts are refused.
class TextFlow final : public Flow {
  public:
    TextFlow(std::string page_id, TextBody body, ThenText then)
        : page_id_(std::move(page_id)), body_(std::move(body)), then_(std::move(then)) {}
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;
    bool is_piece() const override { return true; }

  private:
    std::string page_id_;
    TextBody body_;
    ThenText then_;
};

// A number from the pad; `then` gets it as typed: a decimal number not below 0, or any whole number
// where the asking says that it may be below 0.
struct NumberAsk {
    std::string question;
    std::string look;
    std::string unit;
    bool negative = false;
    bool whole = false;
};
class NumberFlow final : public Flow {
  public:
    NumberFlow(std::string page_id, NumberAsk ask, ThenText then)
        : page_id_(std::move(page_id)), ask_(std::move(ask)), then_(std::move(then)) {}
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;
    bool is_piece() const override { return true; }

  private:
    std::string page_id_;
    NumberAsk ask_;
    std::string remark_;
    ThenText then_;
};

// A badge, typed or scanned; `then` gets the person.
class BadgeFlow final : public Flow {
  public:
    BadgeFlow(std::string heading, ThenPerson then)
        : heading_(std::move(heading)), then_(std::move(then)) {}
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;
    bool is_piece() const override { return true; }

  private:
    std::string heading_;
    std::string remark_;
    ThenPerson then_;
};

// A signature: the PIN of a person under a stated meaning. `then` runs only after the right PIN.
// Before a person's first signature in a language the signing statement is read and signed; a PIN
// that somebody else handed out signs nothing but its own replacement.
class SignFlow final : public Flow {
  public:
    SignFlow(Person person, std::string heading, std::string statement, Then then)
        : person_(std::move(person)),
          heading_(std::move(heading)),
          statement_(std::move(statement)),
          then_(std::move(then)) {}
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;
    bool is_piece() const override { return true; }

  private:
    Result<Next> refused(Session& session, const PinCheck& check);
    Result<Next> accepted(Session& session);
    std::unique_ptr<Flow> wrong_before(const Session& session, const PinCheck& check) const;
    Person person_;
    std::string heading_;
    std::string statement_;
    std::string remark_;
    Then then_;
    int wrong_here_ = 0;  // wrong PINs that were typed on this page
};

// A message that says no, with a red pin.
std::unique_ptr<Flow> refusal(const Session& session, std::string heading, std::string line);

}  // namespace holdpin
