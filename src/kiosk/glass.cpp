#include "kiosk/glass.hpp"

#include <utility>

#include "kiosk/imgui_compat.hpp"

namespace holdpin {

Result<std::unique_ptr<NullGlass>> NullGlass::make(int width, int height) {
    return make(width, height, usual_scale(width, height));
}

Result<std::unique_ptr<NullGlass>> NullGlass::make(int width, int height, Scale scale) {
    std::shared_ptr<Fonts> fonts = TRY(Fonts::shared(scale));
    return std::unique_ptr<NullGlass>(new NullGlass(width, height, std::move(fonts)));
}

NullGlass::NullGlass(int width, int height, std::shared_ptr<Fonts> fonts)
    : width_(static_cast<float>(width)),
      height_(static_cast<float>(height)),
      fonts_(std::move(fonts)),
      context_(ImGui::CreateContext(fonts_->atlas())) {
    ImGui::SetCurrentContext(context_);
    imgui::set_up_context();
    fonts_->atlas()->SetTexID(imgui::texture_id(1));  // never read: nothing is drawn
}

NullGlass::~NullGlass() {
    ImGui::DestroyContext(context_);
}

void NullGlass::begin() {
    ImGui::SetCurrentContext(context_);
    ImGuiIO& io = ImGui::GetIO();
    io.DisplaySize = ImVec2(width_, height_);
    io.DeltaTime = 1.0F / 60;
    ImGui::NewFrame();
}

void NullGlass::end() {
    ImGui::Render();
    hash_ = imgui::picture_hash();
}

Result<Raster> NullGlass::pixels() {
    return Error{ErrorKind::absent, "there is no display to take a picture of", "",
                 "drive a window instead"};
}

}  // namespace holdpin
