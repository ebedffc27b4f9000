// Who says so: the standing of a number, the basis of a finding, and the look-up of a source by key.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace hw {

/// How much a number is worth, strongest first.
enum class Standing { Published, CommonPractice, FromMemory, Derived, Estimate, Measured, Invented };

/// Standing as written in the tables and on the wire.
std::string_view name_of(Standing standing);
/// Standing from its written name. A name that stands in no list is a Bug: the build has checked the tables.
Standing standing_of(std::string_view name);

/// What a finding stands on: a rule in one sentence, its source key in atlas/sources.csv, the place in the source,
/// the standing, and the inputs that decided.
struct Basis {
    std::string rule;
    std::string source;
    std::string locator;
    Standing standing = Standing::Estimate;
    std::string inputs;
};

/// Something the science has to say. It cannot be built without a basis.
struct Finding {
    Finding(std::string kind_, std::string sentence_, Basis basis_)
        : kind(std::move(kind_)), sentence(std::move(sentence_)), basis(std::move(basis_)) {}
    std::string kind;
    std::string sentence;
    Basis basis;
};

/// Citation of a source key, as printed in atlas/sources.csv; empty when there is none.
std::string_view citation_of(std::string_view source);

}  // namespace hw
