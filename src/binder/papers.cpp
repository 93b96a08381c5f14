#include "binder/papers.hpp"

#include "binder/papers_holds.hpp"
#include "binder/papers_lockout.hpp"
#include "binder/papers_pile.hpp"
#include "binder/papers_rounds.hpp"
#include "binder/qr_proof.hpp"

namespace holdpin {
namespace {

// ASCII, as paths in a binder are; what else a plate holds becomes a hyphen.
std::string plain(const std::string& name) {
    std::string out;
    for (const char c : name) {
        const bool is_plain = (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') ||
                              (c >= 'a' && c <= 'z') || c == '-' || c == '_';
        out.push_back(is_plain ? c : '-');
    }
    return out;
}

class Printer {
  public:
    Printer(const BinderMaterial& material, const PapersPile& pile, const SealedTree& tree)
        : material_(material), pile_(pile), tree_(tree) {}

    Result<std::vector<BinderFile>> all() {
        TRY(certificates());
        TRY(rounds());
        TRY(holds());
        TRY(inspections());
        if (any_proof_) {
            files_.push_back({"papers/check-qr.py", std::string(kQrCheckScript)});
        }
        const BinderScope& scope = material_.scope;
        if (scope.person.empty() && scope.machine.empty() && pile_.counts.last_ms() != 0) {
            TRY(print("summary",
                      TRY(summary_paper(material_, pile_.names, pile_.counts, tree_.seal()))));
        }
        return std::move(files_);
    }

  private:
    Result<void> print(const std::string& name, const Paper& paper) {
        if (material_.go_on && !material_.go_on()) {
            return Error{ErrorKind::refused, "cancelled", "", ""};
        }
        files_.push_back({"papers/" + name + ".pdf", TRY(paper_pdf(paper))});
        return {};
    }
    Result<std::vector<Entry>> read(const std::vector<std::int64_t>& numbers) {
        std::vector<Entry> entries;
        for (const std::int64_t n : numbers) entries.push_back(TRY(material_.ledger.at(n)));
        return entries;
    }
    Result<std::string> proof_of(const Entry& entry) {
        std::string proof = TRY(tree_.proof(entry));
        any_proof_ = any_proof_ || !proof.empty();
        return proof;
    }
    Result<void> certificates() {
        for (const CertificateFacts& facts : pile_.certificates) {
            const std::string proof = TRY(proof_of(facts.evaluated));
            const std::string name = is_certificate(facts) ? "certificate-" : "record-";
            TRY(print(name + std::to_string(facts.evaluated.n),
                      TRY(certificate_paper(material_, pile_.names, facts, proof))));
        }
        return {};
    }
    Result<void> rounds() {
        for (const auto& [name, numbers] : pile_.rounds) {
            TRY(print("rounds-" + plain(name),
                      TRY(rounds_paper(material_, pile_.names, TRY(read(numbers))))));
        }
        return {};
    }
    Result<void> holds() {
        for (const auto& [machine, findings] : pile_.findings) {
            std::vector<FindingChain> chains;
            for (const auto& [finding, numbers] : findings) chains.push_back(TRY(read(numbers)));
            TRY(print("holds-" + plain(machine),
                      TRY(holds_paper(material_, pile_.names, machine, chains))));
        }
        return {};
    }
    Result<void> inspections() {
        for (const Entry& entry : pile_.inspections) {
            TRY(print("lockout-" + std::to_string(entry.n),
                      TRY(lockout_paper(material_, pile_.names, entry, TRY(proof_of(entry))))));
        }
        return {};
    }

    const BinderMaterial& material_;
    const PapersPile& pile_;
    const SealedTree& tree_;
    std::vector<BinderFile> files_;
    bool any_proof_ = false;
};

}  // namespace

Result<std::vector<BinderFile>> papers(const BinderMaterial& material) {
    // Without content there are no words to print with.
    if (material.content.pack.strings.empty()) return std::vector<BinderFile>();
    PapersPile pile(material);
    TRY(each_stored(material.db, [&](const StoredEntry& row) -> Result<void> {
        const bool is_purged = row.body.empty();
        if (!is_purged) pile.add(TRY(entry_of_trusted(row.body)));
        return {};
    }));
    const SealedTree tree = TRY(SealedTree::of(material.db, material.ledger));
    return Printer(material, pile, tree).all();
}

}  // namespace holdpin
