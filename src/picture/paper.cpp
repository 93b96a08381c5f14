#include "picture/paper.hpp"

#include <cairo-pdf.h>

#include "base/local_time.hpp"
#include "picture/paper_press.hpp"

namespace holdpin {
namespace {

constexpr double kA4Width = 210 / 25.4 * 72;
constexpr double kA4Height = 297 / 25.4 * 72;

cairo_status_t keep(void* bytes, const unsigned char* piece, unsigned int length) {
    for (unsigned int i = 0; i < length; ++i) {
        static_cast<std::string*>(bytes)->push_back(static_cast<char>(piece[i]));
    }
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

struct Printed {
    std::string bytes;
    int pages = 0;
};

Result<Printed> print(const Paper& paper, int pages) {
    Printed printed;
    const std::unique_ptr<cairo_surface_t, PaperUnref> pdf(
        cairo_pdf_surface_create_for_stream(keep, &printed.bytes, kA4Width, kA4Height));
    name(pdf.get(), paper);
    {
        const std::unique_ptr<cairo_t, PaperUnref> cairo(cairo_create(pdf.get()));
        PaperPress press(pdf.get(), cairo.get(), pages);
        for (const PaperPart& part : paper.parts) TRY(press.part(part));
        printed.pages = press.page();
    }
    cairo_surface_finish(pdf.get());
    const cairo_status_t status = cairo_surface_status(pdf.get());
    if (status != CAIRO_STATUS_SUCCESS) {
        return Error{ErrorKind::failed, cairo_status_to_string(status), paper.title, ""};
    }
    return printed;
}

}  // namespace

// How many pages there are is known only after they were set; then they are set again.
Result<std::string> paper_pdf(const Paper& paper) {
    const int pages = TRY(print(paper, 0)).pages;
    return TRY(print(paper, pages)).bytes;
}

}  // namespace holdpin
