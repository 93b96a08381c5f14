// The files of a binder, as its check takes them: refused with words, or what was counted in them
// is there. An input is one text. Its first line holds words, and after each "\n@@ " stand the name
// of a file, a line feed, and its bytes up to the next. Nothing that is changed at random is
// signed, so the words say what is made anew with the key of the seeds before the check, for it to
// go on: `seal`, a seal over all entries as they stand; `sums`, key, sums and their signature.
// Seeds come from a binder of the tests, by seed_of_binder:
//     HOLDPIN_SHOW=out build/dev/binder_test -tc="*from memory*"
//     tests/fuzz/seed_of_binder out "seal sums" 6 entries.jsonl HOW-TO-CHECK.md tables/people.csv
#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <map>
#include <nlohmann/json.hpp>
#include <sstream>

#include "base/sha256.hpp"
#include "binder/check.hpp"
#include "ledger/seal.hpp"

namespace {

using namespace holdpin;
using Texts = std::map<std::string, std::string>;

const KioskKey& seed_key() {
    static const KioskKey key = kiosk_key_of(Bytes(32, 5)).value();
    return key;
}

Bytes bytes_of(const std::string& text) { return {text.begin(), text.end()}; }

Texts files_of(std::string_view input) {
    constexpr std::string_view kMark = "\n@@ ";
    Texts files;
    for (auto at = input.find(kMark); at != input.npos;) {
        const auto name = at + kMark.size();
        at = input.find(kMark, name);
        const std::string_view file = input.substr(name, at == input.npos ? at : at - name);
        const auto end = std::min(file.find('\n'), file.size());
        files[std::string(file.substr(0, end))] = file.substr(std::min(end + 1, file.size()));
    }
    return files;
}

// As the tree has it, found by another way than the check's.
std::vector<Hash> leaves_of(const std::string& entries) {
    std::vector<Hash> leaves;
    std::istringstream lines(entries);
    for (std::string line; std::getline(lines, line);) {
        const auto value = nlohmann::json::parse(line, nullptr, false);
        const bool stub = value.is_object() && value.size() == 2 && value.contains("leaf");
        const bool told = stub && value["leaf"].is_string();
        const Bytes hash = told ? unhex(value["leaf"].get<std::string>()).value_or({}) : Bytes();
        leaves.push_back(leaf_hash(bytes_of(line)));
        if (hash.size() == leaves.back().size()) {
            std::copy(hash.begin(), hash.end(), leaves.back().begin());
        }
    }
    return leaves;
}

void seal_anew(Texts& files) {
    const std::vector<Hash> leaves = leaves_of(files["entries.jsonl"]);
    const Seal seal = make_seal(seed_key(), leaves.size(), root_of(leaves), 1'795'606'800'000);
    files["seals/all.json"] = seal_body(seal) + "\n";
}

void sum_anew(Texts& files) {
    files["key.pem"] = public_key_pem(seed_key().public_key);
    files.erase("SHA256SUMS");
    files.erase("SHA256SUMS.sig");
    std::string sums;
    for (const auto& [name, text] : files) sums += hex(sha256(text)) + "  " + name + "\n";
    const Bytes signature = sign(seed_key(), bytes_of(sums));
    files["SHA256SUMS"] = sums;
    files["SHA256SUMS.sig"] = std::string(signature.begin(), signature.end());
}

BinderFiles in_memory(const Texts& texts) {
    BinderFiles files;
    for (const auto& [name, text] : texts) files.names.push_back(name);
    files.open = [&texts](const std::string& name) -> std::unique_ptr<std::istream> {
        const auto found = texts.find(name);
        if (found == texts.end()) return nullptr;
        return std::make_unique<std::istringstream>(found->second);
    };
    return files;
}

void demand(bool what) {
    if (!what) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view input(reinterpret_cast<const char*>(data), size);
    const std::string_view words = input.substr(0, input.find('\n'));
    Texts files = files_of(input);
    if (words.find("seal") != words.npos) seal_anew(files);
    if (words.find("sums") != words.npos) sum_anew(files);
    const auto checked = check_files(in_memory(files), nullptr);
    if (!checked) {
        demand(!checked.error().what.empty() && checked.error().kind == ErrorKind::damaged);
        return 0;
    }
    const std::vector<Hash> leaves = leaves_of(files["entries.jsonl"]);
    demand(checked.value().entries == leaves.size());
    demand(checked.value().root == hex(root_of(leaves)));
    demand(checked.value().files == files.size());
    return 0;
}
