// The training certificate: one passed evaluation of one person for one class, with the four things
// that 29 CFR 1910.178(l)(6) asks for: name, date of training, date of evaluation, and who trained
// and evaluated. It names the employer and carries the proof of its entry as a QR code. Where one
// of the four is not there, or the evaluator never signed at the kiosk, the paper is called a
// training record and says what is missing.
#pragma once

#include <map>
#include <string>
#include <tuple>

#include "binder/papers_voice.hpp"

namespace holdpin {

// When somebody was taught a topic and by whom; dates as in entries, empty: not.
struct TopicTraining {
    std::string instructed_on;
    std::string instructed_by;
    std::string practised_on;
    std::string practised_by;
};

struct CertificateFacts {
    Entry evaluated;
    std::map<std::string, TopicTraining> topics;  // as they stood at the evaluation
};

// All four are there, and the evaluator signed.
Result<bool> is_certificate(const BinderMaterial& material, const NameHashes& names,
                            const CertificateFacts& facts);

// `proof`: what the QR code holds; empty: no seal covers the entry.
Result<Paper> certificate_paper(const BinderMaterial& material, const NameHashes& names,
                                const CertificateFacts& facts, const std::string& proof);

}  // namespace holdpin
