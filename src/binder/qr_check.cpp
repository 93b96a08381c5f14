#include "binder/qr_proof.hpp"

namespace holdpin {

const std::string_view kQrCheckScript = R"PY(#!/usr/bin/env python3
"""check-qr.py KEY.pem < TEXT: checks the proof that the QR code of a document holds.

    zbarimg -q --raw page.png | python3 check-qr.py key.pem
"""
import hashlib, json, os, subprocess, sys, tempfile

CHARACTERS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"

def base45(text):  # RFC 9285
    out = b""
    for at in range(0, len(text), 3):
        part = [CHARACTERS.index(c) for c in text[at:at + 3]]
        value = sum(digit * 45 ** place for place, digit in enumerate(part))
        out += value.to_bytes(len(part) - 1, "big")
    return out

def root_of(leaf, index, size, path):  # RFC 9162 section 2.1.3.2
    last, top = size - 1, leaf
    for beside in path:
        if last == 0:
            return b""
        if index % 2 == 1 or index == last:
            top = hashlib.sha256(b"\x01" + beside + top).digest()
            while index % 2 == 0 and index != 0:
                index, last = index // 2, last // 2
        else:
            top = hashlib.sha256(b"\x01" + top + beside).digest()
        index, last = index // 2, last // 2
    return top if last == 0 else b""

def signed(text, signature, key):
    with tempfile.TemporaryDirectory() as folder:
        for name, data in ("text", text), ("sig", signature):
            with open(os.path.join(folder, name), "wb") as file:
                file.write(data)
        return subprocess.run(
            ["openssl", "pkeyutl", "-verify", "-pubin", "-inkey", os.path.abspath(key), "-rawin",
             "-in", "text", "-sigfile", "sig"], cwd=folder, capture_output=True).returncode == 0

line = sys.stdin.read().strip("\r\n")
if not line.startswith("HP1:"):
    sys.exit("This is no proof.")
data = base45(line[4:])
size, time, kiosk = int.from_bytes(data[:8], "big"), data[8:32], data[32:40].hex().encode()
path = [data[105 + 32 * i:137 + 32 * i] for i in range(data[104])]
body = data[105 + 32 * len(path):]
n = json.loads(body)["n"]
top = root_of(hashlib.sha256(b"\x00" + body).digest(), n - 1, size, path).hex().encode()
text = b"\n".join([b"holdpin seal 1", str(size).encode(), top, time, kiosk, b""])
good = n <= size and signed(text, data[40:104], sys.argv[1])
print(("This holds: " if good else "This does NOT hold: ") + f"entry {n}, seal over {size}")
print(body.decode())
sys.exit(0 if good else 1)
)PY";

}  // namespace holdpin
