#include "edge/pdf/sheet.hpp"

#include <cairo-pdf.h>
#include <pango/pangocairo.h>

#include <algorithm>
#include <cmath>

#include "edge/pdf/catalog.hpp"
#include "edge/pdf/text.hpp"
#include "edge/pdf/typefaces.hpp"

namespace hw::pdf {

namespace {

template <class T, void (*release)(T*)>
struct Freed {
    void operator()(T* p) const { release(p); }
};
void unref(void* object) { g_object_unref(object); }
struct ObjectFreed {
    void operator()(void* p) const { unref(p); }
};
using Layout = std::unique_ptr<PangoLayout, ObjectFreed>;
using Description = std::unique_ptr<PangoFontDescription, Freed<PangoFontDescription, pango_font_description_free>>;

cairo_status_t take(void* to, const unsigned char* bytes, unsigned int count) {
    static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(bytes), count);
    return CAIRO_STATUS_SUCCESS;
}
cairo_status_t drop(void*, const unsigned char*, unsigned int) { return CAIRO_STATUS_SUCCESS; }

PangoAlignment pango_align(Align a) { return a == Align::Left ? PANGO_ALIGN_LEFT : a == Align::Right ? PANGO_ALIGN_RIGHT : PANGO_ALIGN_CENTER; }

Description described(const Type& type) {
    Description d(pango_font_description_new());
    pango_font_description_set_family_static(d.get(), type.face == Face::Serif ? "Vollkorn,DejaVu Sans" : "Inter,DejaVu Sans");
    pango_font_description_set_weight(d.get(), type.strong ? PANGO_WEIGHT_SEMIBOLD : type.face == Face::Serif ? PANGO_WEIGHT_MEDIUM : PANGO_WEIGHT_NORMAL);
    pango_font_description_set_absolute_size(d.get(), type.size * PANGO_SCALE);
    return d;
}

/// ISO 8601 as this program writes it: 2026-01-02T03:04:05Z.
bool is_date(const std::string& text) {
    constexpr std::string_view pattern = "0000-00-00T00:00:00Z";
    return text.size() == pattern.size() && std::equal(text.begin(), text.end(), pattern.begin(), [](char c, char p) { return p == '0' ? c >= '0' && c <= '9' : c == p; });
}

}  // namespace

struct Sheet::Hidden {
    std::string bytes;
    Size size;
    int pages = 1;
    bool trial = false;
    cairo_surface_t* surface = nullptr;
    cairo_t* pen = nullptr;
    PangoContext* context = nullptr;

    Layout laid(const Words& words, const Type& type, double width) const {
        std::string whole;
        Layout layout(pango_layout_new(context));
        PangoAttrList* attributes = pango_attr_list_new();
        pango_attr_list_insert(attributes, pango_attr_font_features_new("tnum=1, lnum=1"));
        pango_attr_list_insert(attributes, pango_attr_insert_hyphens_new(FALSE));
        for (const auto& run : words.runs) {
            if (!whole.empty()) whole += ' ';
            const auto from = whole.size();
            whole += glued(fit(run.text));
            if (!run.strong) continue;
            PangoAttribute* heavy = pango_attr_weight_new(PANGO_WEIGHT_SEMIBOLD);
            heavy->start_index = static_cast<guint>(from);
            heavy->end_index = static_cast<guint>(whole.size());
            pango_attr_list_insert(attributes, heavy);
        }
        for (const auto& [from, to] : whole_units(whole)) {
            PangoAttribute* together = pango_attr_allow_breaks_new(FALSE);
            together->start_index = static_cast<guint>(from);
            together->end_index = static_cast<guint>(to);
            pango_attr_list_insert(attributes, together);
        }
        pango_layout_set_attributes(layout.get(), attributes);
        pango_attr_list_unref(attributes);
        pango_layout_set_font_description(layout.get(), described(type).get());
        pango_layout_set_text(layout.get(), whole.c_str(), static_cast<int>(whole.size()));
        pango_layout_set_auto_dir(layout.get(), FALSE);
        pango_layout_set_alignment(layout.get(), pango_align(type.align));
        pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
        if (width > 0) pango_layout_set_width(layout.get(), static_cast<int>(std::floor(width * PANGO_SCALE)));
        if (type.lines > 0) {
            pango_layout_set_ellipsize(layout.get(), PANGO_ELLIPSIZE_END);
            pango_layout_set_height(layout.get(), -type.lines);
        }
        return layout;
    }
    /// Lines stand at a fixed distance, whatever letters they hold.
    static double tall(const Layout& layout, const Type& type) { return pango_layout_get_line_count(layout.get()) * type.size * type.leading; }

    void colour(Colour c) const { cairo_set_source_rgb(pen, c.r, c.g, c.b); }
    void path(const std::vector<Point>& points) const {
        for (const auto& p : points) cairo_line_to(pen, p.x, p.y);
    }
};

Size size_of(desk::Paper paper) {
    constexpr double mm = 72 / 25.4;
    return paper == desk::Paper::A4 ? Size{210 * mm, 297 * mm} : Size{612, 792};
}

Size size_of(desk::WallPaper paper) {
    constexpr double mm = 72 / 25.4;
    switch (paper) {
        case desk::WallPaper::A3: return {420 * mm, 297 * mm};
        case desk::WallPaper::A4: return {297 * mm, 210 * mm};
        case desk::WallPaper::Tabloid: return {1224, 792};
        case desk::WallPaper::Letter: return {792, 612};
    }
    throw Bug("a paper without a size");
}

Sheet::Sheet(Size size, const AboutFile& about, bool trial) : hidden_(std::make_unique<Hidden>()) {
    auto& h = *hidden_;
    h.size = size;
    h.trial = trial;
    h.surface = cairo_pdf_surface_create_for_stream(trial ? drop : take, &h.bytes, h.size.width, h.size.height);
    cairo_pdf_surface_set_metadata(h.surface, CAIRO_PDF_METADATA_TITLE, fit(about.title, 200).c_str());
    cairo_pdf_surface_set_metadata(h.surface, CAIRO_PDF_METADATA_SUBJECT, fit(about.subject, 200).c_str());
    cairo_pdf_surface_set_metadata(h.surface, CAIRO_PDF_METADATA_CREATOR, "hidewright");
    // Without a date the library would take the clock's.
    cairo_pdf_surface_set_metadata(h.surface, CAIRO_PDF_METADATA_CREATE_DATE, is_date(about.date) ? about.date.c_str() : "");
    h.pen = cairo_create(h.surface);
    h.context = pango_font_map_create_context(typefaces());
    pango_cairo_context_set_resolution(h.context, 72);
    pango_context_set_language(h.context, pango_language_from_string("en-gb"));
    pango_context_set_base_dir(h.context, PANGO_DIRECTION_LTR);
    pango_context_set_round_glyph_positions(h.context, FALSE);
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    pango_cairo_context_set_font_options(h.context, options);
    cairo_font_options_destroy(options);
}

Sheet::~Sheet() {
    g_object_unref(hidden_->context);
    cairo_destroy(hidden_->pen);
    cairo_surface_destroy(hidden_->surface);
}

Size Sheet::size() const { return hidden_->size; }
int Sheet::pages() const { return hidden_->pages; }

void Sheet::turn() {
    cairo_show_page(hidden_->pen);
    ++hidden_->pages;
}

double Sheet::height(const Words& words, const Type& type, double width) { return Hidden::tall(hidden_->laid(words, type, width), type); }

double Sheet::width(const Words& words, const Type& type) {
    int width = 0, height = 0;
    pango_layout_get_size(hidden_->laid(words, type, 0).get(), &width, &height);
    return static_cast<double>(width) / PANGO_SCALE;
}

double Sheet::text(Point at, double width, const Words& words, const Type& type, const char* tag) {
    const auto& h = *hidden_;
    const Layout layout = h.laid(words, type, width);
    const double tall = Hidden::tall(layout, type);
    if (h.trial) return tall;
    h.colour(type.colour);
    open(tag);
    PangoLayoutIter* row = pango_layout_get_iter(layout.get());
    double baseline = at.y + type.size * (0.36 + type.leading / 2);
    do {
        PangoRectangle extents;
        pango_layout_iter_get_line_extents(row, nullptr, &extents);
        cairo_move_to(h.pen, at.x + static_cast<double>(extents.x) / PANGO_SCALE, baseline);
        pango_cairo_show_layout_line(h.pen, pango_layout_iter_get_line_readonly(row));
        baseline += type.size * type.leading;
    } while (pango_layout_iter_next_line(row) != FALSE);
    pango_layout_iter_free(row);
    close(tag);
    return tall;
}

void Sheet::fill(Point at, Size size, Colour colour) {
    if (hidden_->trial) return;
    hidden_->colour(colour);
    cairo_rectangle(hidden_->pen, at.x, at.y, size.width, size.height);
    cairo_fill(hidden_->pen);
}

void Sheet::frame(Point at, Size size, Colour colour, double weight) {
    if (hidden_->trial) return;
    hidden_->colour(colour);
    cairo_set_line_width(hidden_->pen, weight);
    cairo_rectangle(hidden_->pen, at.x, at.y, size.width, size.height);
    cairo_stroke(hidden_->pen);
}

void Sheet::stroke(const std::vector<Point>& points, Colour colour, double weight, bool dashed) {
    if (hidden_->trial || points.size() < 2) return;
    const double dash[] = {3, 2};
    hidden_->colour(colour);
    cairo_set_line_width(hidden_->pen, weight);
    cairo_set_line_join(hidden_->pen, CAIRO_LINE_JOIN_ROUND);
    cairo_set_dash(hidden_->pen, dash, dashed ? 2 : 0, 0);
    cairo_new_path(hidden_->pen);
    hidden_->path(points);
    cairo_stroke(hidden_->pen);
    cairo_set_dash(hidden_->pen, dash, 0, 0);
}

void Sheet::area(const std::vector<Point>& points, Colour colour) {
    if (hidden_->trial || points.size() < 3) return;
    hidden_->colour(colour);
    cairo_new_path(hidden_->pen);
    hidden_->path(points);
    cairo_close_path(hidden_->pen);
    cairo_fill(hidden_->pen);
}

void Sheet::hatch(Point at, Size size, Colour colour, double apart, double weight) {
    if (hidden_->trial || size.width <= 0) return;
    cairo_t* pen = hidden_->pen;
    cairo_save(pen);
    cairo_rectangle(pen, at.x, at.y, size.width, size.height);
    cairo_clip(pen);
    hidden_->colour(colour);
    cairo_set_line_width(pen, weight);
    for (double x = at.x - size.height; x < at.x + size.width; x += apart) {
        cairo_move_to(pen, x, at.y + size.height);
        cairo_line_to(pen, x + size.height, at.y);
    }
    cairo_stroke(pen);
    cairo_restore(pen);
}

void Sheet::open(const char* tag) {
    if (!hidden_->trial) cairo_tag_begin(hidden_->pen, tag, nullptr);
}
void Sheet::close(const char* tag) {
    if (!hidden_->trial) cairo_tag_end(hidden_->pen, tag);
}

void Sheet::bookmark(const std::string& title, double y) {
    if (hidden_->trial) return;
    const std::string target = "page=" + std::to_string(hidden_->pages) + " pos=[0 " + std::to_string(static_cast<int>(y)) + "]";
    cairo_pdf_surface_add_outline(hidden_->surface, CAIRO_PDF_OUTLINE_ROOT, fit(title, 200).c_str(), target.c_str(), static_cast<cairo_pdf_outline_flags_t>(0));
}

Result<std::string> Sheet::finish() {
    auto& h = *hidden_;
    const cairo_status_t drawn = cairo_status(h.pen);
    cairo_surface_finish(h.surface);
    const cairo_status_t written = cairo_surface_status(h.surface);
    for (const auto status : {drawn, written})
        if (status != CAIRO_STATUS_SUCCESS) return Error{ErrorCode::Unavailable, std::string("The page could not be drawn: ") + cairo_status_to_string(status) + ".", "page"};
    return with_language(std::move(h.bytes));
}

}  // namespace hw::pdf
