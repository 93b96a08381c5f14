#include "binder/how_to_check.hpp"

#include <string_view>
#include <utility>

namespace holdpin {
namespace {

constexpr std::string_view kText = R"md(# How to check this binder

Records of the site "{site}", kept by the kiosk {kiosk}: {entries} entries, {purged} of them purged.
Made {made}. {scope}
Newest seal: {sealed}. Root over all entries:

    {root}

*Español: `python3 check.py` dice si algo cambió. Compare el número del quiosco ({kiosk}) con el que
se anotó en papel al instalarlo.*

## What is here

| file | is |
|---|---|
| `entries.jsonl` | one entry a line, the bytes that were hashed; of a purged one number and leaf |
| `seals/` | signed tree heads: the last of each day and the newest, named by what they cover |
| `key.pem` | the kiosk's public key |
| `tables/`, `records.xlsx` | the entries as tables; all but `entries` in one workbook |
| `training.xapi.json`, `due.ics` | training as xAPI statements; due dates as a calendar |
| `SHA256SUMS`, `SHA256SUMS.sig` | the sum of every other file; the kiosk's signature over them |

Tables and papers are drawn from the entries and from names kept beside them. The kiosk's signature
over `SHA256SUMS` says that it made them; the entries and the seals prove themselves.

## The sums, and who signed them

    sha256sum --check --quiet SHA256SUMS
    openssl pkeyutl -verify -pubin -inkey key.pem -rawin -in SHA256SUMS -sigfile SHA256SUMS.sig

## All of it

Write this to a file `check.py` outside the binder and run `python3 check.py FOLDER`. It needs
python3 and openssl. It says what is wrong first, or that nothing is.

```python
import base64, hashlib, json, os, subprocess, sys, tempfile
def wrong(what): sys.exit("WRONG: " + what)
def sha(data): return hashlib.sha256(data).digest()
def signed(text, signature):
    with tempfile.TemporaryDirectory() as d:
        for name, data in (("t", text), ("s", signature)):
            with open(os.path.join(d, name), "wb") as f: f.write(data)
        words = "openssl pkeyutl -verify -pubin -inkey key.pem -rawin -in".split()
        words += [os.path.join(d, "t"), "-sigfile", os.path.join(d, "s")]
        return subprocess.run(words, capture_output=True).returncode == 0
os.chdir(sys.argv[1] if len(sys.argv) > 1 else ".")
for name in ("SHA256SUMS", "SHA256SUMS.sig", "key.pem", "entries.jsonl", "seals"):
    if not os.path.exists(name): wrong(name + " is missing")
kiosk = sha(base64.b64decode(open("key.pem").read().split("\n")[1])[-32:]).hex()[:16]
sums = open("SHA256SUMS", "rb").read()
if not signed(sums, open("SHA256SUMS.sig", "rb").read()): wrong("SHA256SUMS is not signed")
listed = {line[66:]: line[:64] for line in sums.decode().splitlines()}
for name, want in listed.items():
    if not os.path.isfile(name): wrong(name + " is missing")
    total = hashlib.sha256()
    with open(name, "rb") as f:
        for part in iter(lambda: f.read(1 << 20), b""): total.update(part)
    if total.hexdigest() != want: wrong(name + " was changed")
for folder, _, names in os.walk("."):
    for name in names:
        name = os.path.relpath(os.path.join(folder, name)).replace(os.sep, "/")
        if name not in listed and name not in ("SHA256SUMS", "SHA256SUMS.sig"):
            wrong(name + " does not belong here")
seals, peaks, n = {}, [], 0  # peaks: size and root of the perfect subtrees, largest first
for name in sorted(os.listdir("seals")):
    s = json.load(open("seals/" + name))
    text = "holdpin seal 1\n%d\n%s\n%s\n%s\n" % (s["size"], s["root"], s["time"], s["kiosk"])
    if s["kiosk"] != kiosk or not signed(text.encode(), base64.b64decode(s["signature"])):
        wrong("seals/" + name + " is not signed")
    seals[s["size"]] = s["root"]
for n, line in enumerate(open("entries.jsonl", "rb"), 1):
    entry = json.loads(line)
    if entry["n"] != n: wrong("entry %d is missing" % n)
    purged = set(entry) == {"n", "leaf"}
    peaks.append((1, bytes.fromhex(entry["leaf"]) if purged else sha(b"\0" + line[:-1])))
    while len(peaks) > 1 and peaks[-2][0] == peaks[-1][0]:
        peaks[-2:] = [(2 * peaks[-1][0], sha(b"\1" + peaks[-2][1] + peaks[-1][1]))]
    if n in seals:
        root = peaks[-1][1]
        for _, peak in reversed(peaks[:-1]): root = sha(b"\1" + peak + root)
        if root.hex() != seals[n]: wrong("entries 1 to %d are not those that were sealed" % n)
if max(seals, default=0) != n: wrong("the newest seal does not cover %d entries" % n)
counts = (n, len(seals), len(listed), kiosk)
print("%d entries, %d seals, %d files agree. Signed by kiosk %s." % counts)
```

## What that proves

That the kiosk with this key sealed these entries, in this order, and none was altered, removed or
put between since. Whether the key is that of the kiosk has to be known from elsewhere: compare
**{kiosk}** with what was noted when the kiosk was set up, or a witness code in the paper shift book
with `holdpin ledger check --witness`. What was never entered, or entered wrongly, no seal can show.

The same check without python: `holdpin binder check FOLDER`, on any machine.
)md";

void fill(std::string& text, std::string_view name, const std::string& value) {
    const std::string braced = "{" + std::string(name) + "}";
    for (auto at = text.find(braced); at != text.npos; at = text.find(braced, at + value.size())) {
        text.replace(at, braced.size(), value);
    }
}

}  // namespace

std::string how_to_check(const HowToFacts& facts) {
    std::string text(kText);
    const std::pair<std::string_view, const std::string&> values[] = {
        {"site", facts.site},     {"kiosk", facts.kiosk}, {"entries", facts.entries},
        {"purged", facts.purged}, {"root", facts.root},   {"sealed", facts.sealed},
        {"made", facts.made},     {"scope", facts.scope}};
    for (const auto& [name, value] : values) fill(text, name, value);
    return text;
}

}  // namespace holdpin
