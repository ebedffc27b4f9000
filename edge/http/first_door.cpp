#include "edge/http/first_door.hpp"

namespace hw::http {

namespace {

constexpr std::string_view style =
    "body{font:18px/1.5 system-ui,sans-serif;max-width:36rem;margin:0 auto;padding:16px;color:#1f1a15;background:#fbf8f2}"
    "h1,h2{font-family:Georgia,serif;line-height:1.2}"
    "a.take{display:inline-block;padding:14px 20px;background:#1f1a15;color:#fff;text-decoration:none;border-radius:4px}"
    "code{display:block;font:16px/1.6 ui-monospace,monospace;padding:12px;border:1px solid #77695a;border-radius:4px}"
    "li{margin:6px 0}"
    "@media(prefers-color-scheme:dark){body{color:#f3ece1;background:#1a1612}a.take{background:#f3ece1;color:#1a1612}}";

/// Eight pairs to a line, the same on the workshop computer.
std::string in_lines(const std::string& fingerprint) {
    std::string out;
    for (std::size_t i = 0; i < fingerprint.size(); ++i) out += i % 24 == 23 ? std::string("<br>") : std::string(1, fingerprint[i]);
    return out;
}

std::string first_page(const std::string& fingerprint) {
    return "<!doctype html><html lang=\"en-GB\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">"
           "<title>This phone and the workshop</title><link rel=\"stylesheet\" href=\"/first.css\"></head><body>"
           "<h1>Let this phone trust the workshop</h1>"
           "<p>Once for each phone. Afterwards everything between this phone and the workshop computer is encrypted.</p>"
           "<p><a class=\"take\" href=\"/authority.crt\">Take the certificate</a></p>"
           "<h2>On an iPhone or iPad</h2><ol><li>Tap the button and allow the download.</li><li>Settings: “Profile Downloaded”, then Install.</li>"
           "<li>Settings, General, About, Certificate Trust Settings: switch on the one that begins with “Workshop”.</li></ol>"
           "<h2>On Android</h2><ol><li>Tap the button; the file is saved.</li><li>Settings: search for “CA certificate”, choose it, and confirm.</li>"
           "<li>Pick the file authority.crt.</li></ol>"
           "<h2>Is it the right one?</h2><p>The phone shows the SHA-256 fingerprint under the details of the certificate. Compare it with the one on the workshop computer, "
           "not only with this:</p><code>" +
           in_lines(fingerprint) +
           "</code><p>It can speak only for this workshop and for addresses inside it, not for any place on the internet.</p>"
           "<h2>Then</h2><p>Point the camera at the second code on the workshop computer.</p></body></html>";
}

}  // namespace

Reply first_answer(const FirstDoor& door, std::string_view method, std::string_view path, const std::string& id) {
    if (method != "GET" && method != "HEAD") {
        Reply no = door_refusal(405, "Method Not Allowed", "Here is only the certificate of the workshop.", "method", id);
        no.allow = "GET, HEAD";
        return no;
    }
    Reply r;
    if (path == "/") {
        r.type = "text/html; charset=utf-8";
        r.body = first_page(door.fingerprint);
    } else if (path == "/first.css") {
        r.type = "text/css; charset=utf-8";
        r.body = style;
    } else if (path == "/authority.crt") {
        r.type = "application/x-x509-ca-cert";
        r.body = door.authority_der;
    } else {
        return door_refusal(404, "Not Found", "Here is only the certificate of the workshop.", "path", id);
    }
    return r;
}

}  // namespace hw::http
