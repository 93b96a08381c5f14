#include "kiosk/fonts.hpp"

#include <map>
#include <utility>

#include <fontconfig/fontconfig.h>
#include <imgui.h>
#include <imgui_freetype.h>

namespace holdpin {

namespace {

struct Face {
    const char* family;
    bool bold;
    float sketch;     // size in the sketches; 0: by its capitals
    float capitals;   // millimetres
    bool ascii_only;  // large numbers: a small atlas
};

// In the order of Type.
constexpr Face kFaces[kTypes] = {
    {"B612", false, 22, 0, false},
    {"B612", true, 22, 0, false},
    {"B612", false, 26, 0, false},
    {"B612", true, 26, 0, false},
    {"B612", false, 31, 0, false},
    {"B612", true, 32, 0, false},
    {"B612", true, 40, 0, false},
    {"B612", true, 0, kStateCapitalsMm, false},
    {"B612 Mono", false, 26, 0, false},
    {"B612 Mono", true, 32, 0, false},
    {"B612 Mono", true, 64, 0, true},
    {"B612 Mono", true, 0, kPlateCapitalsMm, true},
};

// ImGui sizes a face by its line height, the sketches by its em: read from the face (ascender and
// descender of B612 span 1.155 em, capitals 0.6251 of the line).
constexpr float kLineOfEm = 1.155F;
constexpr float kCapitalsOfLine = 0.6251F;

constexpr ImWchar kAscii[] = {0x20, 0x7E, 0};
// Latin with its accents, spaces of all widths, dashes, quotation marks, arrows, signs of sums.
constexpr ImWchar kLatin[] = {
    0x0020, 0x007E, 0x00A0, 0x017F, 0x2000, 0x200A, 0x2010, 0x2027, 0x202F, 0x203A, 0x2070, 0x209C,
    0x20AC, 0x20AC, 0x2190, 0x2193, 0x2212, 0x2212, 0x2260, 0x2265, 0xFFFD, 0xFFFD, 0};

float line_height(const Face& face, Scale scale) {
    if (face.capitals > 0) {
        return scale.mm(face.capitals) / kCapitalsOfLine;
    }
    return scale.sketch(face.sketch) * kLineOfEm;
}

std::string file_of(FcPattern* match, const std::string& family) {
    FcChar8* found_family = nullptr;
    FcChar8* file = nullptr;
    if (FcPatternGetString(match, FC_FAMILY, 0, &found_family) != FcResultMatch ||
        FcPatternGetString(match, FC_FILE, 0, &file) != FcResultMatch) {
        return {};
    }
    // Fontconfig always answers with something; a face of another family is no answer.
    const std::string name = reinterpret_cast<const char*>(found_family);
    return name == family ? reinterpret_cast<const char*>(file) : std::string();
}

Result<std::string> find_face(const std::string& family, bool bold) {
    FcPattern* wanted = FcPatternCreate();
    FcPatternAddString(wanted, FC_FAMILY, reinterpret_cast<const FcChar8*>(family.c_str()));
    FcPatternAddInteger(wanted, FC_WEIGHT, bold ? FC_WEIGHT_BOLD : FC_WEIGHT_REGULAR);
    FcPatternAddInteger(wanted, FC_SLANT, FC_SLANT_ROMAN);
    FcConfigSubstitute(nullptr, wanted, FcMatchPattern);
    FcDefaultSubstitute(wanted);
    FcResult result = FcResultNoMatch;
    FcPattern* match = FcFontMatch(nullptr, wanted, &result);
    std::string file = match == nullptr ? std::string() : file_of(match, family);
    if (match != nullptr) {
        FcPatternDestroy(match);
    }
    FcPatternDestroy(wanted);
    if (file.empty()) {
        return Error{ErrorKind::absent, "the typeface \"" + family + "\" is not installed", "",
                     "install the packages fonts-b612 and fonts-noto-core"};
    }
    return file;
}

}  // namespace

Fonts::Fonts(Scale scale) : scale_(scale), atlas_(std::make_unique<ImFontAtlas>()) {}
Fonts::~Fonts() = default;

Result<void> Fonts::add(Type type) {
    const auto index = static_cast<std::size_t>(type);
    const Face& face = kFaces[index];
    const float size = line_height(face, scale_);
    ImFontConfig config;
    config.GlyphRanges = face.ascii_only ? kAscii : kLatin;
    const std::string file = TRY(find_face(face.family, face.bold));
    fonts_[index] = atlas_->AddFontFromFileTTF(file.c_str(), size, &config);
    if (fonts_[index] == nullptr) {
        return Error{ErrorKind::failed, "the typeface cannot be read", file, ""};
    }
    if (!face.ascii_only) {
        config.MergeMode = true;
        const std::string other = TRY(find_face("Noto Sans", face.bold));
        if (atlas_->AddFontFromFileTTF(other.c_str(), size, &config) == nullptr) {
            return Error{ErrorKind::failed, "the typeface cannot be read", other, ""};
        }
    }
    return {};
}

Result<std::unique_ptr<Fonts>> Fonts::load(Scale scale) {
    std::unique_ptr<Fonts> fonts(new Fonts(scale));
    fonts->atlas_->FontBuilderIO = ImGuiFreeType::GetBuilderForFreeType();
    fonts->atlas_->TexDesiredWidth = 2048;
    fonts->atlas_->Flags |= ImFontAtlasFlags_NoMouseCursors;
    for (int i = 0; i < kTypes; ++i) {
        TRY(fonts->add(static_cast<Type>(i)));
    }
    if (!fonts->atlas_->Build()) {
        return Error{ErrorKind::failed, "the typefaces cannot be drawn", "", ""};
    }
    return fonts;
}

Result<std::shared_ptr<Fonts>> Fonts::shared(Scale scale) {
    // Shared by the drivers of one process, which come and go.
    static std::map<std::pair<float, float>, std::shared_ptr<Fonts>> loaded;
    std::shared_ptr<Fonts>& slot = loaded[{scale.px_per_mm, scale.growth}];
    if (slot == nullptr) {
        slot = TRY(load(scale));
    }
    return slot;
}

float Fonts::capitals(Type type) const {
    const ImFontGlyph* glyph = font(type)->FindGlyphNoFallback('H');
    return glyph == nullptr ? 0 : glyph->Y1 - glyph->Y0;
}

float Fonts::above_capitals(Type type) const {
    const ImFontGlyph* glyph = font(type)->FindGlyphNoFallback('H');
    return glyph == nullptr ? 0 : glyph->Y0;
}

bool Fonts::knows(Type type, const std::string& text) const {
    const ImFont* face = font(type);
    const char* at = text.c_str();
    const char* end = at + text.size();
    while (at < end) {
        const auto first = static_cast<unsigned char>(*at);
        const int length = first < 0x80 ? 1 : first < 0xE0 ? 2 : first < 0xF0 ? 3 : 4;
        unsigned code = first < 0x80 ? first : first & (0x7FU >> length);
        for (int i = 1; i < length && at + i < end; ++i) {
            code = code << 6 | (static_cast<unsigned char>(at[i]) & 0x3FU);
        }
        at += length;
        const bool known = code <= 0xFFFF && face->FindGlyphNoFallback(
                                                 static_cast<ImWchar>(code)) != nullptr;
        if (code != '\n' && !known) {
            return false;
        }
    }
    return true;
}

Type one_smaller(Type type) {
    switch (type) {
        case Type::body: return Type::small;
        case Type::body_bold: return Type::small_bold;
        case Type::lead: return Type::body;
        case Type::heading: return Type::body_bold;
        case Type::big: return Type::heading;
        case Type::state: return Type::big;
        case Type::mono_bold: return Type::mono;
        case Type::plate_huge: return Type::plate;
        case Type::plate: return Type::mono_bold;
        case Type::small:
        case Type::small_bold:
        case Type::mono: return type;
    }
    return type;
}

}  // namespace holdpin
