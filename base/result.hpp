// The three words for what goes wrong: a finding is an ordinary value, an Error says why we cannot answer, a Bug is our
// own broken promise.
#pragma once

#include <array>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <variant>

namespace hw {

enum class ErrorCode { InvalidInput, NotFound, OutOfRange, Conflict, NotConverged, Unavailable, Bug };

/// The one table of error words: code, name on the wire, sentence, HTTP status, exit code of the command line.
struct ErrorRow {
    ErrorCode code;
    std::string_view name;
    std::string_view title;
    int http_status;
    int exit_code;
};
inline constexpr std::array<ErrorRow, 7> error_table{{
    {ErrorCode::InvalidInput, "invalid_input", "The request cannot be read as it stands.", 400, 2},
    {ErrorCode::NotFound, "not_found", "There is nothing under that name.", 404, 3},
    {ErrorCode::OutOfRange, "out_of_range", "A value lies outside what the model covers.", 422, 4},
    {ErrorCode::Conflict, "conflict", "Somebody changed this in the meantime.", 409, 5},
    {ErrorCode::NotConverged, "not_converged", "The computation did not settle.", 422, 6},
    {ErrorCode::Unavailable, "unavailable", "A part of the program cannot be reached just now.", 503, 7},
    {ErrorCode::Bug, "bug", "The program broke a promise of its own.", 500, 70},
}};

constexpr const ErrorRow& error_row(ErrorCode code) { return error_table[static_cast<std::size_t>(code)]; }

/// Why we cannot answer. `message` is one or two sentences and says the remedy; `where` names the field
/// (`liquid.ingredients[0].cas`) or the row.
struct Error {
    ErrorCode code;
    std::string message;
    std::string where;
};

/// A value, or the Error that stands in its place.
template <class T>
class [[nodiscard]] Result {
public:
    using Value = T;
    Result(T value) : state_(std::in_place_index<0>, std::move(value)) {}          // NOLINT: implicit by intent
    Result(Error error) : state_(std::in_place_index<1>, std::move(error)) {}      // NOLINT: implicit by intent
    [[nodiscard]] bool ok() const { return state_.index() == 0; }
    explicit operator bool() const { return ok(); }
    [[nodiscard]] T& value() & { require(); return std::get<0>(state_); }
    [[nodiscard]] const T& value() const& { require(); return std::get<0>(state_); }
    [[nodiscard]] T&& value() && { require(); return std::get<0>(std::move(state_)); }
    [[nodiscard]] const Error& error() const { return std::get<1>(state_); }
    T* operator->() { return &value(); }
    const T* operator->() const { return &value(); }
    T& operator*() & { return value(); }
    const T& operator*() const& { return value(); }

private:
    void require() const;
    std::variant<T, Error> state_;
};

/// Result of work that only succeeds or fails.
struct Done {};

/// A broken promise of our own; caught only in main and in the HTTP handler.
class Bug : public std::logic_error {
public:
    using std::logic_error::logic_error;
};

template <class T>
void Result<T>::require() const {
    if (!ok()) throw Bug("value() of a Result that holds an error: " + std::get<1>(state_).message);
}

}  // namespace hw

#define HW_EXPECTS(condition)                                                                                \
    do {                                                                                                     \
        if (!(condition)) throw ::hw::Bug(std::string("broken promise: " #condition " in ") + __FILE__);     \
    } while (false)

/// Binds the value of a Result to `name`, or returns its Error from the enclosing function.
#define HW_TRY(name, expression)                                     \
    auto name##_result = (expression);                               \
    if (!name##_result.ok()) return name##_result.error();           \
    auto& name = name##_result.value()
