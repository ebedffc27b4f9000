// The verbs `digest` and `sheets`: what they take from the command line.
#pragma once

#include <string>

#include "desk/digest.hpp"
#include "desk/ports.hpp"
#include "edge/store/sqlite_sheets.hpp"

namespace hw::cli {

/// The codec's part of the store of sheets: doors do not include each other, so they meet here.
store::SheetSerialiser sheets_as_json();

/// The bytes of a file of this machine, refused by its size before it is read.
Result<desk::DigestRequest> digest_request(const std::string& file);

/// The id that begins so. @error NotFound  none, or more than one
Result<std::string> whole_id(const std::string& begins, desk::Sheets& sheets);

std::string line_of(const desk::SheetRow& row);

}  // namespace hw::cli
