#pragma once

#include <string>
#include <utility>
#include <variant>

namespace quillbench {

/// What kind of thing went wrong; decides the exit code of the command line.
enum class ErrorCode {
    BadArgument,     ///< the person asked for something that cannot be (exit 2)
    UnreadableInput, ///< a file is missing, damaged, of a newer schema, not finite (exit 3)
    NothingFound,    ///< read, but holds nothing that can be measured (exit 4)
    Environment,     ///< a device, disk or database does not answer
};

/// A failure that a person can act on: one line that names the field, the value and the allowed range.
struct Error {
    ErrorCode code = ErrorCode::BadArgument;
    std::string text;    ///< what is wrong and how to mend it, without final newline
    std::string context; ///< file, row or field it belongs to; may be empty
};

template <typename E>
class Unexpected {
public:
    explicit Unexpected(E error) : error_(std::move(error)) {}

    [[nodiscard]] const E& error() const& { return error_; }

    [[nodiscard]] E&& error() && { return std::move(error_); }

private:
    E error_;
};

/// The subset of std::expected (C++23) that we use, with its names, so that it can become an alias.
template <typename T>
class [[nodiscard]] Result {
public:
    // NOLINTNEXTLINE(google-explicit-constructor): as std::expected
    Result(T value) : state_(std::in_place_index<0>, std::move(value)) {}

    // NOLINTNEXTLINE(google-explicit-constructor): as std::expected
    Result(Unexpected<Error> failure)
        : state_(std::in_place_index<1>, std::move(failure).error()) {}

    [[nodiscard]] bool hasValue() const { return state_.index() == 0; }

    explicit operator bool() const { return hasValue(); }

    /// Requires hasValue().
    [[nodiscard]] const T& value() const& { return std::get<0>(state_); }

    [[nodiscard]] T& value() & { return std::get<0>(state_); }

    [[nodiscard]] T&& value() && { return std::get<0>(std::move(state_)); }

    const T& operator*() const& { return value(); }

    T& operator*() & { return value(); }

    const T* operator->() const { return &value(); }

    T* operator->() { return &value(); }

    /// Requires !hasValue().
    [[nodiscard]] const Error& error() const { return std::get<1>(state_); }

private:
    std::variant<T, Error> state_;
};

template <>
class [[nodiscard]] Result<void> {
public:
    Result() = default;

    // NOLINTNEXTLINE(google-explicit-constructor): as std::expected
    Result(Unexpected<Error> failure) : error_(std::move(failure).error()), failed_(true) {}

    [[nodiscard]] bool hasValue() const { return !failed_; }

    explicit operator bool() const { return hasValue(); }

    [[nodiscard]] const Error& error() const { return error_; }

private:
    Error error_;
    bool failed_ = false;
};

/// Shorthand: `return failure(ErrorCode::BadArgument, "…")` converts to any Result<T>.
[[nodiscard]] inline Unexpected<Error>
failure(ErrorCode code, std::string text, std::string context = {}) {
    return Unexpected<Error>(Error{code, std::move(text), std::move(context)});
}

} // namespace quillbench
