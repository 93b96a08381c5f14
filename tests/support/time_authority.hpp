// A time authority of a test's own, run by openssl: it stamps as RFC 3161 says, with a key that
// nobody else trusts.
#pragma once

#include <doctest/doctest.h>

#include <string>

#include "base/text.hpp"
#include "support/shell.hpp"
#include "support/temp_dir.hpp"

namespace holdpin {

class TimeAuthority {
  public:
    // `digests`: what it stamps at all.
    explicit TimeAuthority(const std::string& digests = "sha256") {
        const std::string config = "[req]\ndistinguished_name = name\nprompt = no\n"
            "x509_extensions = stamps\n[name]\nCN = Time authority of a test\n"
            "[stamps]\nextendedKeyUsage = critical,timeStamping\n"
            "[tsa]\ndefault_tsa = clock\n[clock]\nserial = " + (dir_ / "serial") +
            "\nsigner_cert = " + certificate() + "\nsigner_key = " + (dir_ / "key") +
            "\nsigner_digest = sha256\ndefault_policy = 1.2.3.4.1\ndigests = " + digests +
            "\ness_cert_id_alg = sha256\n";
        REQUIRE(write_file(dir_ / "config", config).ok());
        const Ran made = run_shell("openssl req -x509 -newkey rsa:2048 -nodes -days 3650 -config " +
                                   (dir_ / "config") + " -keyout " + (dir_ / "key") + " -out " +
                                   certificate() + " 2>&1");
        REQUIRE_MESSAGE(made.code == 0, made.said);
    }
    std::string certificate() const { return dir_ / "certificate.pem"; }
    // What it takes to have `query` answered on standard output.
    std::string command(const std::string& query) const {
        return "openssl ts -reply -config " + (dir_ / "config") + " -queryfile " + query;
    }
    std::string reply_to(const std::string& query) const {
        REQUIRE(write_file(dir_ / "query", query).ok());
        return run_shell(command(dir_ / "query") + " 2>/dev/null").said;
    }
    const TempDir& dir() const { return dir_; }

  private:
    TempDir dir_;
};

}  // namespace holdpin
