#include "binder/papers.hpp"

#include "binder/folder.hpp"
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
    Printer(const BinderMaterial& material, const BinderSink& sink, const PapersPile& pile)
        : material_(material), sink_(sink), pile_(pile) {}

    Result<void> all() {
        tree_ = TRY(SealedTree::of(material_.db, wanted()));
        total_ = static_cast<int>(pile_.certificates.size() + pile_.rounds.size() +
                                  pile_.findings.size() + pile_.inspections.size()) + 1;
        TRY(certificates());
        TRY(rounds());
        TRY(holds());
        TRY(inspections());
        if (any_proof_) {
            TRY(sink_({"papers/check-qr.py", std::string(kQrCheckScript)}));
        }
        const BinderScope& scope = material_.scope;
        const bool has_summary =
            scope.person.empty() && scope.machine.empty() && pile_.counts.last_ms() != 0;
        if (!has_summary) return {};
        return print("summary",
                     TRY(summary_paper(material_, pile_.names, pile_.counts, tree_.seal())));
    }

  private:
    bool go_on() const {
        return material_.progress == nullptr || material_.progress(done_, total_);
    }
    // Entries whose proof is printed.
    std::vector<std::int64_t> wanted() const {
        std::vector<std::int64_t> numbers;
        for (const CertificateFacts& facts : pile_.certificates) {
            numbers.push_back(facts.evaluated.n);
        }
        for (const Entry& entry : pile_.inspections) numbers.push_back(entry.n);
        return numbers;
    }
    Result<void> print(const std::string& name, const Paper& paper) {
        if (!go_on()) return cancelled();
        TRY(sink_({"papers/" + name + ".pdf", TRY(printer_.pdf(paper))}));
        ++done_;
        return {};
    }
    Result<std::string> proof_of(const Entry& entry) {
        std::string proof = TRY(tree_.proof(entry));
        any_proof_ = any_proof_ || !proof.empty();
        return proof;
    }
    Result<void> certificates() {
        for (const CertificateFacts& facts : pile_.certificates) {
            const std::string proof = TRY(proof_of(facts.evaluated));
            const bool whole = TRY(is_certificate(material_, pile_.names, facts));
            const std::string name = whole ? "certificate-" : "record-";
            TRY(print(name + std::to_string(facts.evaluated.n),
                      TRY(certificate_paper(material_, pile_.names, facts, proof))));
        }
        return {};
    }
    Result<void> rounds() {
        for (const auto& [name, month] : pile_.rounds) {
            if (!go_on()) return cancelled();
            TRY(print("rounds-" + plain(name), TRY(rounds_paper(material_, pile_.names, month))));
        }
        return {};
    }
    Result<void> holds() {
        for (const auto& [name, year] : pile_.findings) {
            if (!go_on()) return cancelled();
            TRY(print("holds-" + plain(name), TRY(holds_paper(material_, pile_.names, year))));
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
    const BinderSink& sink_;
    const PapersPile& pile_;
    SealedTree tree_;
    PaperPrinter printer_;
    int done_ = 0;
    int total_ = 1;
    bool any_proof_ = false;
};

}  // namespace

Result<void> papers(const BinderMaterial& material, const BinderSink& sink) {
    // Without content there are no words to print with.
    if (material.content.pack.strings.empty()) return {};
    PapersPile pile(material);
    TRY(each_stored(material.db, [&](const StoredEntry& row) -> Result<void> {
        const bool is_purged = row.body.empty();
        if (!is_purged) pile.add(TRY(entry_of_trusted(row.body)));
        return {};
    }));
    return Printer(material, sink, pile).all();
}

}  // namespace holdpin
