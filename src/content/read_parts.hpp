// Readers of pieces that guides and rounds share.
#pragma once

#include <vector>

#include "content/node_reader.hpp"

namespace holdpin {

Picture read_picture(NodeReader& reader);
std::vector<Warning> read_warnings(NodeReader& reader);

}  // namespace holdpin
