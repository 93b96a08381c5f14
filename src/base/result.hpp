// Failure as a value. A function that can fail returns Result<T>; the caller must look at it.
// Error holds facts for a person: what is wrong, where, and how to mend it. Sentences in the
// operator's language are made at the edge (flows/say), never here.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <variant>

namespace holdpin {

enum class ErrorKind {
    absent,    // the thing asked for is not there
    invalid,   // input that breaks a rule; the caller can mend it
    refused,   // understood, and not allowed
    damaged,   // stored data is not what was written
    full,      // no room left on the disk
    read_only, // the disk can be read and not written
    failed,    // the system said no (I/O, permission, library)
};

struct Error {
    ErrorKind kind = ErrorKind::failed;
    std::string what;   // one sentence: what is wrong
    std::string where;  // file, field or object; may be empty
    std::string mend;   // how to put it right; may be empty

    // "where: what; mend", leaving out what is empty.
    std::string sentence() const {
        std::string line = where.empty() ? what : where + ": " + what;
        return mend.empty() ? line : line + "; " + mend;
    }
};

template <typename T>
class [[nodiscard]] Result {
  public:
    Result(T value) : held_(std::in_place_index<0>, std::move(value)) {}
    Result(Error error) : held_(std::in_place_index<1>, std::move(error)) {}

    bool ok() const { return held_.index() == 0; }
    explicit operator bool() const { return ok(); }
    T& value() & { return std::get<0>(held_); }
    const T& value() const& { return std::get<0>(held_); }
    T&& value() && { return std::get<0>(std::move(held_)); }
    const Error& error() const { return std::get<1>(held_); }
    T value_or(T other) const { return ok() ? std::get<0>(held_) : std::move(other); }

  private:
    std::variant<T, Error> held_;
};

template <>
class [[nodiscard]] Result<void> {
  public:
    Result() = default;
    Result(Error error) : error_(std::move(error)) {}

    bool ok() const { return !error_.has_value(); }
    explicit operator bool() const { return ok(); }
    const Error& error() const { return *error_; }

  private:
    std::optional<Error> error_;
};

namespace detail {
template <typename T>
T take(Result<T>&& result) {
    return std::move(result).value();
}
inline void take(Result<void>&&) {}
}  // namespace detail

}  // namespace holdpin

#define HOLDPIN_JOIN_(a, b) a##b
#define HOLDPIN_JOIN(a, b) HOLDPIN_JOIN_(a, b)
#define HOLDPIN_TRY_(name, expression)                    \
    __extension__({                                       \
        auto name = (expression);                         \
        if (!name.ok()) {                                 \
            return name.error();                          \
        }                                                 \
        ::holdpin::detail::take(std::move(name));         \
    })

// Value of a Result, or leave the enclosing function with its error.
#define TRY(expression) HOLDPIN_TRY_(HOLDPIN_JOIN(try_, __COUNTER__), expression)
