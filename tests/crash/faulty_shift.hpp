// A whole shift on a disk with a fault, and what must hold when the disk is whole again. The
// site is set up once; every run begins with that image, the same clock and the same random
// numbers.
#pragma once

#include <map>
#include <memory>
#include <string>
#include <vector>

#include "cli/new_site.hpp"
#include "crash/power_disk.hpp"
#include "script/act.hpp"

namespace holdpin {

// What the kiosk had shown when it ended.
struct Shown {
    std::uint64_t size = 0;  // entries, when a page stood there last that was no failure
    Hash root{};
    std::string page;                 // the id of that page
    std::vector<std::string> failed;  // the texts of the page that said that it failed
    bool finished = false;
    bool met_fault = false;

    bool said() const { return !failed.empty(); }
};

// What was found afterwards, counted over many runs.
struct Tally {
    int runs = 0;
    int faults = 0;    // in which the fault was met
    int said = 0;      // in which the kiosk said so
    int finished = 0;  // in which the shift went on to its end all the same
    int beyond = 0;    // in which more was on the disk than had been shown
};

// Checks that each release among these entries, from 1 without gaps, stands on a round that was
// signed before it for the same machine. Returns how many there are.
int check_releases(const std::vector<Entry>& entries);
std::vector<Entry> entries_of(Ledger& ledger);

class FaultyShift {
  public:
    FaultyShift();
    // The shift, with the fault at the `nth` call of the disk; 0: none.
    Shown run(int nth, DiskFault fault);
    // Reopens what is left and judges it with doctest's CHECK.
    void inspect(const Shown& shown, Tally& tally);
    int calls() const { return calls_; }  // of the disk in a shift without a fault

  private:
    Result<std::unique_ptr<OpenSite>> open(Clock& clock, Random& random);

    PowerDisk disk_;
    Loaded loaded_;
    Script script_;
    KioskKey key_;
    std::map<std::string, std::string> image_;
    std::uint64_t whole_size_ = 0;
    int calls_ = 0;
};

}  // namespace holdpin
