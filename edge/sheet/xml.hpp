// A small reader of XML (XML 1.0, fifth edition) for files that strangers wrote: elements, attributes, text, the five named and the
// numbered characters. No document type, so no entities of its own and nothing to fetch; limited in depth and number.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace hw::sheet_reader {

struct XmlElement {
    std::string name;                                                ///< without its prefix
    std::string space;                                               ///< namespace name; empty when it has none
    std::string text;                                                ///< its own text, without blanks at the ends
    std::vector<std::pair<std::string, std::string>> attributes;     ///< those without a prefix, but not xmlns
    std::vector<XmlElement> children;

    /// The first child of that name; null when there is none.
    [[nodiscard]] const XmlElement* child(std::string_view child_name) const;
    /// Down a path of names: {"ProductIdentity", "TradeName"}.
    [[nodiscard]] const XmlElement* at(std::initializer_list<std::string_view> path) const;
    [[nodiscard]] std::string_view attribute(std::string_view attribute_name) const;
};

/// The element at the root. Only UTF-8 (and its subset ASCII) is read.
/// @error InvalidInput  not well formed, a document type, another encoding, more than 64 deep, 200,000 elements,
///                      32 namespaces declared by one element or 500 by all, a namespace of more than 256 bytes
Result<XmlElement> parse_xml(std::string_view bytes);

}  // namespace hw::sheet_reader
