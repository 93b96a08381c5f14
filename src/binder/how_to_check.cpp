#include "binder/how_to_check.hpp"

#include <string_view>
#include <utility>

namespace holdpin {
namespace {

constexpr std::string_view kHowToCheck = R"md(# How to check this binder

Records of the site "{site}", kept by the kiosk {kiosk}: {entries} entries, {purged} of them purged.
Made {made}. {scope}
Newest seal: {sealed}. Root over all entries:

    {root}

*Español: `python3 check.py CARPETA QUIOSCO` dice si algo cambió. Compare el número del quiosco
({kiosk}) con el que se anotó en papel al instalarlo.*

## What is here

| file | is |
|---|---|
| `entries.jsonl` | one entry a line, the bytes that were hashed; of a purged one number and leaf |
| `seals/` | signed tree heads, named by size: the last of each day, the stamped, the newest |
| `stamps/` | where the site has them: what a time authority said to a seal (RFC 3161) |
| `key.pem` | the kiosk's public key |
| `tables/`, `records.xlsx` | the entries as tables; all but `entries` in one workbook |
| `content/` | what was on the screen: entries name it, and the sum of a file is its name |
| `papers/` | certificates, round sheets, holds and the rest as printed documents |
| `CUSTODY.md` | a page to be printed: who had this binder, when |
| `training.xapi.json`, `due.ics` | training as xAPI statements; due dates as a calendar |
| `SHA256SUMS`, `SHA256SUMS.sig` | the sum of every other file; the kiosk's signature over them |

Tables and papers are drawn from the entries and from names kept beside them. The kiosk's signature
over `SHA256SUMS` says that it made them; the entries and the seals prove themselves.

## The sums, and who signed them

    sha256sum --check --quiet SHA256SUMS
    openssl pkeyutl -verify -pubin -inkey key.pem -rawin -in SHA256SUMS -sigfile SHA256SUMS.sig

## All of it

Write this to a file `check.py` outside the binder and run `python3 check.py FOLDER KIOSK`, with the
number of the kiosk from elsewhere. It needs python3 and openssl. It says what is wrong first, or
that nothing is.

```python
import base64, hashlib, json, os, subprocess, sys, tempfile
def wrong(what): sys.exit("WRONG: " + what)
def sha(data): return hashlib.sha256(data).digest()
def read(f): return open(f, "rb").read() if os.path.isfile(f) else wrong(f + " is missing")
def signed(text, signature):
    with tempfile.NamedTemporaryFile() as t, tempfile.NamedTemporaryFile() as s:
        t.write(text), t.flush(), s.write(signature), s.flush()
        words = "openssl pkeyutl -verify -pubin -inkey key.pem -rawin -in".split()
        words += [t.name, "-sigfile", s.name]
        return subprocess.run(words, capture_output=True).returncode == 0
os.chdir(sys.argv[1] if len(sys.argv) > 1 else ".")
kiosk = sha(base64.b64decode(read("key.pem").split(b"\n")[1])[-32:]).hex()[:16]
if sys.argv[2:] and sys.argv[2] != kiosk: wrong("signed by kiosk " + kiosk)
if not signed(read("SHA256SUMS"), read("SHA256SUMS.sig")): wrong("SHA256SUMS is not signed")
listed = {line[66:]: line[:64] for line in read("SHA256SUMS").decode().splitlines()}
for name, want in listed.items(): sha(read(name)).hex() == want or wrong(name + " was changed")
found = {os.path.relpath(os.path.join(at, f)) for at, _, files in os.walk(".") for f in files}
for name in found - set(listed) - {"SHA256SUMS", "SHA256SUMS.sig"}: wrong(name + " is not listed")
seals, peaks, gone, n = {}, [], set(), 0  # peaks: size, root of perfect subtrees, largest first
for s in (json.loads(read("seals/" + name)) for name in os.listdir("seals")):
    text = "holdpin seal 1\n%d\n%s\n%s\n%s\n" % (s["size"], s["root"], s["time"], s["kiosk"])
    good = s["kiosk"] == kiosk and signed(text.encode(), base64.b64decode(s["signature"]))
    seals[s["size"]] = s["root"] if good else wrong("a seal is not signed: %d" % s["size"])
for n, line in enumerate(open("entries.jsonl", "rb"), 1):
    e = json.loads(line)
    if e["n"] != n or e.get("kiosk", kiosk) != kiosk: wrong("entry %d is not in its place" % n)
    gone |= {n} if set(e) == {"n", "leaf"} else set()
    peaks.append((1, bytes.fromhex(e["leaf"]) if n in gone else sha(b"\0" + line[:-1])))
    d = e["data"] if e.get("kind") == "purged" else {}
    text = "holdpin purge 1\n%s\n" % json.dumps(d.get("entries"), separators=(",", ":"))
    good = "entries" in d and signed(text.encode(), bytes.fromhex(d["kiosk_signature"]))
    gone -= {g for a, b in (d["entries"] if good else []) for g in range(a, b + 1)}
    while len(peaks) > 1 and peaks[-2][0] == peaks[-1][0]:
        peaks[-2:] = [(2 * peaks[-1][0], sha(b"\1" + peaks[-2][1] + peaks[-1][1]))]
    root = peaks[-1][1]
    for _, peak in reversed(peaks[:-1] if n in seals else []): root = sha(b"\1" + peak + root)
    if root.hex() != seals.get(n, root.hex()): wrong("entries to %d are not as sealed" % n)
if gone: wrong("entry %d has no body, and no entry says it was purged" % min(gone))
if max(seals, default=0) != n: wrong("the newest seal does not cover %d entries" % n)
print("%d entries, %d seals, %d files agree. Kiosk %s." % (n, len(seals), len(listed), kiosk))
```

## What that proves

That the kiosk with this key sealed these entries, in this order, and none was altered, removed or
put between since. Whether the key is that of the kiosk has to be known from elsewhere: compare
**{kiosk}** with what was noted when the kiosk was set up. Whoever has the key could still have made
all of it anew: a witness code that somebody wrote into the paper shift book shows that. What was
never entered, or entered wrongly, no seal can show.

A file in `stamps/` is the word of somebody else's clock that the seal of the same number, and so
all entries under it, existed by then. With the certificate of the authority from elsewhere (of
several over one seal each counts by itself):

    openssl ts -reply -text -in stamps/NUMBER.tsr
    openssl ts -verify -data seals/NUMBER.json -in stamps/NUMBER.tsr -CAfile AUTHORITY.pem

The same check without python, on any machine, with the number and with the witness codes as they
stand in the shift book (`--witness` may be given again and again):

    holdpin binder check FOLDER --kiosk {kiosk} --witness CODE@SIZE
)md";

constexpr std::string_view kCustody = R"md(# Chain of custody

Records of the site "{site}", kept by the kiosk {kiosk}: {entries} entries.
Made {made}. {scope} Root over all entries:

    {root}

Print this page, fill it in by hand at each hand-over, and keep it with the medium. In the column
"sum" stand the first and the last eight digits that `sha256sum SHA256SUMS` shows: the same digits
say that it is the same binder. (Identify, collect, acquire, preserve: ISO/IEC 27037, from memory.)

*Español: imprima esta hoja y llénela a mano en cada entrega; guárdela con el medio. En "sum" van
los primeros y los últimos ocho dígitos que muestra `sha256sum SHA256SUMS`.*

| when / cuándo | from / entrega | to / recibe | medium / medio | sum | why / motivo |
|---|---|---|---|---|---|
| | | | | | |
| | | | | | |
| | | | | | |
| | | | | | |
| | | | | | |
| | | | | | |
)md";

void fill(std::string& text, std::string_view name, const std::string& value) {
    const std::string braced = "{" + std::string(name) + "}";
    for (auto at = text.find(braced); at != text.npos; at = text.find(braced, at + value.size())) {
        text.replace(at, braced.size(), value);
    }
}

std::string filled(std::string_view template_text, const HowToFacts& facts) {
    std::string text(template_text);
    const std::pair<std::string_view, const std::string&> values[] = {
        {"site", facts.site},     {"kiosk", facts.kiosk}, {"entries", facts.entries},
        {"purged", facts.purged}, {"root", facts.root},   {"sealed", facts.sealed},
        {"made", facts.made},     {"scope", facts.scope}};
    for (const auto& [name, value] : values) fill(text, name, value);
    return text;
}

}  // namespace

std::string how_to_check(const HowToFacts& facts) { return filled(kHowToCheck, facts); }
std::string custody_page(const HowToFacts& facts) { return filled(kCustody, facts); }

}  // namespace holdpin
