// The illustrations of the project for a window: what a TextureSource paints with.
#pragma once

#include <string>

#include "kiosk/texture.hpp"

namespace holdpin {

// Paints `folder`/<file>.svg. A part that the drawing lacks is left unmarked, a drawing that cannot
// be painted stays empty; the reason goes to the standard error output.
Paint illustration_paint(std::string folder);

}  // namespace holdpin
