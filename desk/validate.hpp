// Walks a described struct and names the first value outside its range, as `use.dose.area_cm2`.
#pragma once

#include <cmath>
#include <optional>
#include <sstream>
#include <string>
#include <type_traits>
#include <vector>

#include "base/describe.hpp"
#include "base/result.hpp"

namespace hw::desk {

class Validator {
public:
    explicit Validator(std::string prefix = {}) : prefix_(std::move(prefix)) {}
    [[nodiscard]] const std::optional<Error>& error() const { return error_; }

    template <class T>
    void operator()(std::string_view name, T& member, const About& about) {
        if (!error_) look(prefix_.empty() ? std::string(name) : prefix_ + "." + std::string(name), member, about);
    }

private:
    template <class T>
    struct is_vector : std::false_type {};
    template <class T>
    struct is_vector<std::vector<T>> : std::true_type {};
    template <class T>
    struct is_optional : std::false_type {};
    template <class T>
    struct is_optional<std::optional<T>> : std::true_type {};

    template <class T>
    void look(const std::string& where, T& value, const About& about) {
        if constexpr (std::is_same_v<T, bool> || std::is_enum_v<T>) {
        } else if constexpr (std::is_arithmetic_v<T>) {
            const double v = static_cast<double>(value);
            if (std::isnan(v) || v < about.minimum || v > about.maximum) {
                std::ostringstream text;
                text << "Give a value from " << about.minimum << " to " << about.maximum;
                if (!about.doc.empty()) text << " (" << about.doc << ")";
                text << "; " << v << " is outside.";
                error_ = Error{ErrorCode::OutOfRange, text.str(), where};
            }
        } else if constexpr (std::is_same_v<T, std::string>) {
            if (value.size() > 4000) error_ = Error{ErrorCode::InvalidInput, "This text is too long. Shorten it to 4000 characters.", where};
        } else if constexpr (is_optional<T>::value) {
            if (value) look(where, *value, about);
        } else if constexpr (is_vector<T>::value) {
            if (value.size() > 200) error_ = Error{ErrorCode::InvalidInput, "More than 200 entries. Shorten the list.", where};
            for (std::size_t i = 0; i < value.size() && !error_; ++i) look(where + "[" + std::to_string(i) + "]", value[i], about);
        } else {
            Validator inner(where);
            describe(inner, value);
            error_ = inner.error();
        }
    }

    std::string prefix_;
    std::optional<Error> error_;
};

/// The first value out of range, if any. `value` is only read.
template <class T>
std::optional<Error> out_of_range(T value) {
    Validator v;
    describe(v, value);
    return v.error();
}

}  // namespace hw::desk
