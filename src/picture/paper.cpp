#include "picture/paper.hpp"

#include <cairo-pdf.h>

#include "base/local_time.hpp"
#include "picture/paper_press.hpp"

namespace holdpin {
namespace {

constexpr double kA4Width = 210 / 25.4 * 72;
constexpr double kA4Height = 297 / 25.4 * 72;

cairo_status_t keep(void* bytes, const unsigned char* piece, unsigned int length) {
    static_cast<std::string*>(bytes)->append(piece, piece + length);
    return CAIRO_STATUS_SUCCESS;
}

void name(cairo_surface_t* pdf, const Paper& paper) {
    const std::string at = utc_text(paper.at_ms).substr(0, 19) + "Z";
    cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_TITLE, paper.title.c_str());
    cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_AUTHOR, paper.author.c_str());
    cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_SUBJECT, paper.subject.c_str());
    cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_CREATE_DATE, at.c_str());
    cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_MOD_DATE, at.c_str());
}

Result<int> count_pages(TypeSetter& setter, const Paper& paper) {
    PaperPress press(setter, nullptr, nullptr, 0);
    for (const PaperPart& part : paper.parts) TRY(press.part(part));
    return press.page();
}

Result<std::string> print(TypeSetter& setter, const Paper& paper, int pages) {
    std::string bytes;
    const CairoSurface pdf(
        cairo_pdf_surface_create_for_stream(keep, &bytes, kA4Width, kA4Height));
    name(pdf.get(), paper);
    {
        const CairoPen cairo(cairo_create(pdf.get()));
        PaperPress press(setter, pdf.get(), cairo.get(), pages);
        for (const PaperPart& part : paper.parts) TRY(press.part(part));
    }
    cairo_surface_finish(pdf.get());
    const cairo_status_t status = cairo_surface_status(pdf.get());
    if (status != CAIRO_STATUS_SUCCESS) {
        return Error{ErrorKind::failed, cairo_status_to_string(status), paper.title, ""};
    }
    return bytes;
}

}  // namespace

struct PaperPrinter::Setter {
    TypeSetter type;
};

PaperPrinter::PaperPrinter() : setter_(std::make_unique<Setter>()) {}
PaperPrinter::~PaperPrinter() = default;

// How many pages there are is known only after they were set; so they are measured first.
Result<std::string> PaperPrinter::pdf(const Paper& paper) {
    const int pages = TRY(count_pages(setter_->type, paper));
    return print(setter_->type, paper, pages);
}

Result<std::string> paper_pdf(const Paper& paper) { return PaperPrinter().pdf(paper); }

}  // namespace holdpin
