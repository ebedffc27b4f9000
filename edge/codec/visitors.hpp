// Visitors over describe(): reading, writing, schema, TypeScript. Included by codec's own .cpp files only.
#pragma once

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "base/describe.hpp"
#include "base/result.hpp"
#include "base/spelling.hpp"

namespace hw::codec {

template <class T>
struct is_vector : std::false_type {};
template <class T>
struct is_vector<std::vector<T>> : std::true_type {};
template <class T>
struct is_optional : std::false_type {};
template <class T>
struct is_optional<std::optional<T>> : std::true_type {};

template <class Json>
class Writer {
public:
    explicit Writer(Json& out) : out_(out) { out_ = Json::object(); }
    template <class T>
    void operator()(std::string_view name, T& member, const About&) { out_[std::string(name)] = value(member); }

    template <class T>
    static Json value(T& v) {
        if constexpr (std::is_same_v<T, double>) return std::isfinite(v) ? Json(v) : Json(nullptr);
        else if constexpr (std::is_enum_v<T>) {
            for (const auto& [e, word] : EnumNames<T>::names)
                if (e == v) return Json(std::string(word));
            return Json(nullptr);
        } else if constexpr (is_optional<T>::value) return v ? value(*v) : Json(nullptr);
        else if constexpr (is_vector<T>::value) {
            Json list = Json::array();
            for (auto& x : v) list.push_back(value(x));
            return list;
        } else if constexpr (std::is_class_v<T> && !std::is_same_v<T, std::string>) {
            Json inner;
            Writer w(inner);
            describe(w, v);
            return inner;
        } else return Json(v);
    }

private:
    Json& out_;
};

template <class Json>
class Reader {
public:
    /// @param null_numbers  true for answers of our own, where null stands for a number that does not exist
    Reader(const Json& in, std::string prefix, bool null_numbers) : in_(in), prefix_(std::move(prefix)), null_numbers_(null_numbers) {
        if (!in_.is_object()) fail(prefix_, "Expected an object in braces.");
    }
    [[nodiscard]] const std::optional<Error>& error() const { return error_; }
    /// Fields that were there, as use.dose.count.
    [[nodiscard]] const std::vector<std::string>& given() const { return given_; }

    template <class T>
    void operator()(std::string_view name, T& member, const About& about) {
        if (error_) return;
        seen_.push_back(std::string(name));
        const std::string where = at(name);
        const auto it = in_.find(std::string(name));
        if (it == in_.end()) {
            if (about.required) fail(where, "This is needed: give it a value.");
            return;
        }
        if (!it->is_object()) given_.push_back(where);
        read(*it, member, where);
    }

    void finish() {
        if (error_) return;
        for (auto it = in_.begin(); it != in_.end(); ++it) {
            if (std::find(seen_.begin(), seen_.end(), it.key()) != seen_.end()) continue;
            std::string best;
            std::size_t distance = 4;
            for (const auto& known : seen_)
                if (const auto d = letters_apart(it.key(), known); d < distance) { distance = d; best = known; }
            fail(at(it.key()), "There is no such field." + (best.empty() ? std::string(" Remove it.") : " Did you mean \"" + best + "\"?"));
            return;
        }
    }

private:
    [[nodiscard]] std::string at(std::string_view name) const { return prefix_.empty() ? std::string(name) : prefix_ + "." + std::string(name); }
    void fail(const std::string& where, std::string message) {
        if (!error_) error_ = Error{ErrorCode::InvalidInput, std::move(message), where};
    }
    template <class T>
    void read(const Json& j, T& out, const std::string& where) {
        if constexpr (is_optional<T>::value) {
            if (j.is_null()) { out.reset(); return; }
            out.emplace();
            read(j, *out, where);
        } else if constexpr (std::is_same_v<T, bool>) {
            if (!j.is_boolean()) return fail(where, "Give true or false.");
            out = j.template get<bool>();
        } else if constexpr (std::is_same_v<T, double>) {
            if (j.is_null() && null_numbers_) { out = std::numeric_limits<double>::quiet_NaN(); return; }
            if (!j.is_number()) return fail(where, "Give a number.");
            out = j.template get<double>();
        } else if constexpr (std::is_same_v<T, int>) {
            if (!j.is_number()) return fail(where, "Give a whole number.");
            const double v = j.template get<double>();
            if (v != std::floor(v) || std::abs(v) > 1e9) return fail(where, "Give a whole number.");
            out = static_cast<int>(v);
        } else if constexpr (std::is_same_v<T, std::string>) {
            if (!j.is_string()) return fail(where, "Give text in quotes.");
            out = j.template get<std::string>();
        } else if constexpr (std::is_enum_v<T>) {
            std::string choices;
            for (const auto& [e, word] : EnumNames<T>::names) {
                if (j.is_string() && j.template get<std::string>() == word) { out = e; return; }
                choices += (choices.empty() ? "" : ", ") + std::string(word);
            }
            fail(where, "Choose one of: " + choices + ".");
        } else if constexpr (is_vector<T>::value) {
            if (!j.is_array()) return fail(where, "Give a list in square brackets.");
            out.clear();
            for (std::size_t i = 0; i < j.size() && !error_; ++i) {
                out.emplace_back();
                read(j[i], out.back(), where + "[" + std::to_string(i) + "]");
            }
        } else {
            Reader inner(j, where, null_numbers_);
            if (!inner.error_) {
                describe(inner, out);
                inner.finish();
            }
            given_.insert(given_.end(), inner.given_.begin(), inner.given_.end());
            if (inner.error_) error_ = inner.error_;
        }
    }

    const Json& in_;
    std::string prefix_;
    bool null_numbers_;
    std::vector<std::string> seen_, given_;
    std::optional<Error> error_;
};

/// JSON Schema of one struct, inline.
template <class Json>
class Schema {
public:
    explicit Schema(Json& out, bool request) : out_(out), request_(request) {
        out_ = Json::object();
        out_["type"] = "object";
        out_["additionalProperties"] = false;
        out_["properties"] = Json::object();
        out_["required"] = Json::array();
    }
    template <class T>
    void operator()(std::string_view name, T&, const About& about) {
        Json s = of<T>(request_);
        if (!about.doc.empty()) s["description"] = std::string(about.doc);
        if (std::isfinite(about.minimum)) s["minimum"] = about.minimum;
        if (std::isfinite(about.maximum)) s["maximum"] = about.maximum;
        out_["properties"][std::string(name)] = s;
        if (about.required || !request_) out_["required"].push_back(std::string(name));
    }
    template <class T>
    static Json of(bool request) {
        Json s = Json::object();
        if constexpr (std::is_same_v<T, bool>) s["type"] = "boolean";
        else if constexpr (std::is_same_v<T, int>) s["type"] = "integer";
        else if constexpr (std::is_same_v<T, double>) { if (request) s["type"] = "number"; else s["type"] = Json::array({"number", "null"}); }
        else if constexpr (std::is_same_v<T, std::string>) s["type"] = "string";
        else if constexpr (std::is_enum_v<T>) {
            s["enum"] = Json::array();
            for (const auto& [e, word] : EnumNames<T>::names) s["enum"].push_back(std::string(word));
        } else if constexpr (is_optional<T>::value) {
            Json inner = of<typename T::value_type>(request);
            if (inner.contains("type") && inner["type"].is_string()) { s = inner; s["type"] = Json::array({inner["type"], "null"}); }
            else s["anyOf"] = Json::array({inner, Json{{"type", "null"}}});
        } else if constexpr (is_vector<T>::value) {
            s["type"] = "array";
            s["items"] = of<typename T::value_type>(request);
        } else {
            T fresh{};
            Schema inner(s, request);
            describe(inner, fresh);
        }
        return s;
    }

private:
    Json& out_;
    bool request_;
};

}  // namespace hw::codec
