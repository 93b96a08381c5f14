"""check_qr.py KEY.pem < TEXT: checks the proof that a QR code holds. See src/binder/FORMAT.md."""
import hashlib, json, os, subprocess, sys, tempfile

CHARACTERS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"

def base45(text):
    out = b""
    for at in range(0, len(text), 3):
        part = [CHARACTERS.index(c) for c in text[at:at + 3]]
        value = sum(digit * 45 ** place for place, digit in enumerate(part))
        out += value.to_bytes(len(part) - 1, "big")
    return out

def root(leaf, index, size, path):
    """RFC 9162 section 2.1.3.2."""
    last, hash_ = size - 1, leaf
    for beside in path:
        if last == 0:
            return b""
        if index % 2 == 1 or index == last:
            hash_ = hashlib.sha256(b"\x01" + beside + hash_).digest()
            while index % 2 == 0 and index != 0:
                index, last = index // 2, last // 2
        else:
            hash_ = hashlib.sha256(b"\x01" + hash_ + beside).digest()
        index, last = index // 2, last // 2
    return hash_ if last == 0 else b""

def signed(text, signature, key):
    with tempfile.TemporaryDirectory() as folder:
        for name, data in ("text", text), ("sig", signature):
            with open(os.path.join(folder, name), "wb") as file:
                file.write(data)
        return subprocess.run(["openssl", "pkeyutl", "-verify", "-pubin", "-inkey", os.path.abspath(key), "-rawin",
                               "-in", "text", "-sigfile", "sig"], cwd=folder, capture_output=True).returncode == 0

line = sys.stdin.read().strip("\r\n")
assert line.startswith("HP1:"), "this is no proof"
data = base45(line[4:])
size, time, kiosk, signature, count = int.from_bytes(data[:8], "big"), data[8:32], data[32:40], data[40:104], data[104]
path = [data[105 + 32 * i:137 + 32 * i] for i in range(count)]
body = data[105 + 32 * count:]
entry = json.loads(body)
top = root(hashlib.sha256(b"\x00" + body).digest(), entry["n"] - 1, size, path)
text = b"".join(part + b"\n" for part in
                (b"holdpin seal 1", str(size).encode(), top.hex().encode(), time, kiosk.hex().encode()))
good = entry["n"] <= size and signed(text, signature, sys.argv[1])
print(("This holds: " if good else "This does NOT hold: ") + f"entry {entry['n']} under the seal over {size}")
print(body.decode())
sys.exit(0 if good else 1)
