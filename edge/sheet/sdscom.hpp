// Data sheets as XML by the open standard SDScom, whose schema is published.
//
// Read are sections 1, 3 and 9 as far as a judgement wants them: names, dates, UFI, ingredients with numbers and shares, pH, density,
// flash and boiling point, vapour pressure. The warnings of section 2 are taken from the printed text.
//
// @source sdscom, SDSComXML.xsd, SDSComXMLCT.xsd and SDSComXMLDT.xsd, version 4.3
#pragma once

#include <optional>

#include "core/sheet/facts.hpp"
#include "edge/sheet/xml.hpp"

namespace hw::sheet_reader {

/// The facts of the first sheet of a feed; they have no places. Nothing when the root is not that of the standard.
std::optional<sheet::Facts> sdscom_facts(const XmlElement& root);

}  // namespace hw::sheet_reader
