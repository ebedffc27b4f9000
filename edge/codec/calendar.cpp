#include "edge/codec/calendar.hpp"

#include "desk/words.hpp"

namespace hw::codec {

namespace {

constexpr std::size_t longest = 75;

/// "2026-03-02T09:00:00Z" as "20260302T090000Z".
std::string stamp(std::string_view at) {
    std::string out;
    for (const char c : at.substr(0, at.find('.')))
        if (c != '-' && c != ':') out += c;
    if (!out.empty() && out.back() != 'Z') out += 'Z';
    return out;
}

bool continues(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

}  // namespace

std::string folded(std::string_view line) {
    std::string out;
    std::size_t room = longest;
    while (line.size() > room) {
        std::size_t cut = room;
        while (cut > 0 && continues(line[cut])) --cut;
        out += std::string(line.substr(0, cut)) + "\r\n ";
        line = line.substr(cut);
        room = longest - 1;  // the space counts
    }
    return out + std::string(line) + "\r\n";
}

std::string escaped(std::string_view text) {
    std::string out;
    for (const char c : text) {
        if (c == '\r') continue;
        if (c == '\n') out += "\\n";
        else {
            if (c == '\\' || c == ',' || c == ';') out += '\\';
            out += c;
        }
    }
    return out;
}

std::string calendar_written(const std::vector<desk::SpotDue>& due, std::string_view now) {
    std::string out;
    const auto line = [&](const std::string& text) { out += folded(text); };
    line("BEGIN:VCALENDAR");
    line("VERSION:2.0");
    line("PRODID:-//hidewright//" + std::string(desk::version_number) + "//EN");
    line("CALSCALE:GREGORIAN");
    for (const auto& d : due) {
        line("BEGIN:VEVENT");
        line("UID:" + escaped(d.spot + (d.what == "Read it again" ? "-again" : "-dry")) + "@hidewright");
        line("DTSTAMP:" + stamp(now));
        line("DTSTART:" + stamp(d.at));
        line("DURATION:PT15M");
        line("SUMMARY:" + escaped(d.sentence));
        if (!d.place.empty()) line("DESCRIPTION:" + escaped("Place: " + d.place + "."));
        line("END:VEVENT");
    }
    line("END:VCALENDAR");
    return out;
}

}  // namespace hw::codec
