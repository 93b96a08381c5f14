// Inside of digest.cpp: what the canonical forms of guides, rounds and jobs share.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "base/sha256.hpp"
#include "base/text.hpp"
#include "content/content.hpp"
#include "content/proofreader.hpp"

namespace holdpin {

// The drawings of one item, each with its digest.
class Drawings {
  public:
    explicit Drawings(const Files& assets) : assets_(assets) {}

    void add(const std::string& file) {
        const auto found = assets_.find(file);
        if (found != assets_.end()) hashes_[file] = hex(sha256(found->second));
    }
    void add_drawing(const std::string& name) {
        if (!name.empty()) add(drawing_file(assets_, name));
    }
    void put(nlohmann::json& json) const {
        if (!hashes_.empty()) json["drawings"] = hashes_;
    }

  private:
    const Files& assets_;
    nlohmann::json hashes_ = nlohmann::json::object();
};

void put_picture(nlohmann::json& json, const Picture& picture, Drawings& drawings);
void put_warnings(nlohmann::json& json, const std::vector<Warning>& warnings);
nlohmann::json json_of_work(const Work& work, Drawings& drawings);

}  // namespace holdpin
