#include "edge/sheet/reader.hpp"

#include <signal.h>
#include <unistd.h>

#include <algorithm>
#include <climits>

#include "desk/digest.hpp"
#include "edge/child/run.hpp"
#include "edge/sheet/answer.hpp"
#include "edge/sheet/sdscom.hpp"
#include "edge/sheet/wire.hpp"
#include "edge/sheet/xml.hpp"

namespace hw::sheet_reader {

namespace {

static_assert(desk::sheet_pages_limit == pages_limit);

std::string beside_this_program() {
    char path[PATH_MAX];
    const ssize_t size = ::readlink("/proc/self/exe", path, sizeof path);
    const std::string here(path, size > 0 ? static_cast<std::size_t>(size) : 0);
    return here.substr(0, here.rfind('/') + 1) + "hidewright-sheet";
}

Error unavailable() {
    return {ErrorCode::Unavailable, "The part that reads data sheets could not be started. Nothing was lost: try again in a moment; close other programs if it stays so.", "sheet"};
}

Error not_there() {
    return {ErrorCode::Unavailable, "The part that reads data sheets, the file hidewright-sheet, is not beside the program. Put it there; it is built and installed together with it.", "sheet"};
}

Error damaged(const std::string& how) {
    return {ErrorCode::InvalidInput, "The file is damaged or is no PDF" + how + ". Load it again from where it comes from, or ask the maker for it; what the label says can be typed in.", "sheet.damaged"};
}

Error too_slow() {
    return {ErrorCode::InvalidInput, "Reading the file took too long and was stopped. Print it into a new PDF and try that, or type in what the label says.", "sheet.too_slow"};
}

Error refusal_of(const AnswerHead& head) {
    switch (static_cast<Refusal>(head.refusal)) {
        case Refusal::Locked: return {ErrorCode::InvalidInput, "The file is locked with a password. Ask the maker for one without, or open it with the password and print it into a new PDF.", "sheet.locked"};
        case Refusal::TooManyPages:
            return {ErrorCode::OutOfRange, "The file has " + std::to_string(head.pages) + " pages; a data sheet with its annexes has up to " + std::to_string(pages_limit) + ". It may be a catalogue: print only the pages of one sheet into a new PDF.", "sheet.too_many_pages"};
        case Refusal::TooManyWords: return {ErrorCode::OutOfRange, "There is more text in the file than a data sheet has. Print only the pages of one sheet into a new PDF.", "sheet.too_large"};
        case Refusal::NoSuchPage: return {ErrorCode::NotFound, "The sheet has " + std::to_string(head.pages) + " pages.", "page"};
        case Refusal::NoMemory: return {ErrorCode::InvalidInput, "The file needs more memory than one may take. Print it into a new PDF and try that.", "sheet.too_large"};
        case Refusal::NotLockedIn:
            return {ErrorCode::Unavailable, "The part that reads data sheets could not be shut off from the rest of this machine, so it read nothing. The system must offer system-call filters (seccomp).", "sheet"};
        default: return damaged("");
    }
}

/// What is plainly something else is not even handed over.
std::optional<Error> no_pdf(std::string_view bytes) {
    // Viewers, and the format's own notes on them, accept the mark anywhere in the first kilobyte.
    if (bytes.substr(0, 1024).find("%PDF-") != std::string_view::npos) return std::nullopt;
    const auto begins = [&](std::string_view with) { return bytes.substr(0, with.size()) == with; };
    std::string what = "This is no PDF.";
    if (begins("\xff\xd8\xff") || begins("\x89PNG")) what = "This is a picture, not a PDF.";
    else if (begins("PK\x03\x04")) what = "This is a document of a word processor or an archive, not a PDF.";
    else if (begins("<!") || begins("<html") || begins("<?xml")) what = "This is a web page or XML, not a PDF.";
    return Error{ErrorCode::InvalidInput, what + " Ask the maker for the data sheet as PDF, or print it into one.", "sheet.not_a_pdf"};
}

}  // namespace

ChildReader::ChildReader(Limits limits, std::string worker) : limits_(limits), worker_(worker.empty() ? beside_this_program() : std::move(worker)) {}

Result<std::string> ChildReader::asked(std::string_view bytes, std::vector<std::string> words) const {
    if (const auto error = no_pdf(bytes)) return *error;
    if (bytes.size() > static_cast<std::size_t>(desk::sheet_bytes_limit))
        return Error{ErrorCode::OutOfRange, "The file is larger than 20 MB. Data sheets are small: print it into a new PDF without its pictures.", "sheet.too_large"};
    if (::access(worker_.c_str(), X_OK) != 0) return not_there();
    child::Ended ended = child::run({worker_, std::move(words), limits_.wall_ms, sizeof(AnswerHead) + body_bytes_limit}, bytes);
    if (!ended.started) return unavailable();
    if (!ended.answered || ended.signal == SIGXCPU) return too_slow();
    if (child::from_outside(ended.signal)) return unavailable();
    if (ended.signal != 0) return damaged(": its reader was stopped by the system with signal " + std::to_string(ended.signal));
    const auto head = head_of(ended.answer);
    if (!head) return damaged("");
    if (head->refusal != 0) return refusal_of(*head);
    return std::move(ended.answer);
}

Result<desk::SheetContent> ChildReader::read(std::string_view bytes) {
    HW_TRY(answer, asked(bytes, {"hidewright-sheet", std::string(words_verb), std::to_string(limits_.cpu_s)}));
    auto content = parse_words(*head_of(answer), std::string_view(answer).substr(sizeof(AnswerHead)));
    if (!content) return damaged("");
    for (auto& file : content->attachments)
        if (const auto root = parse_xml(file.bytes); root.ok()) file.facts = sdscom_facts(*root);
    return std::move(*content);
}

Result<std::string> ChildReader::page(std::string_view bytes, int number, int dpi) {
    HW_TRY(answer, asked(bytes, {"hidewright-sheet", std::string(page_verb), std::to_string(limits_.cpu_s), std::to_string(std::max(number, 0)), std::to_string(std::clamp(dpi, 36, 300))}));
    answer.erase(0, sizeof(AnswerHead));
    if (!is_picture(answer)) return damaged("");
    return std::move(answer);
}

}  // namespace hw::sheet_reader
