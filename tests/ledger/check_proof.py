"""check_proof.py PROOF.json KEY.pem: checks what `holdpin ledger prove` printed. See FORMAT.md."""
import base64, hashlib, json, os, subprocess, sys, tempfile

def node(left, right):
    return hashlib.sha256(b"\x01" + left + right).digest()

def climb(at, last, path, pairs):
    """RFC 9162 2.1.3.2 and 2.1.4.2: joins each hash of `path` to the roots in `pairs`, as due."""
    for beside in path:
        if last == 0:
            return False
        if at % 2 == 1 or at == last:
            pairs[:] = [node(beside, root) for root in pairs]
            while at % 2 == 0 and at != 0:
                at, last = at // 2, last // 2
        else:
            pairs[-1] = node(pairs[-1], beside)
        at, last = at // 2, last // 2
    return last == 0

def consistent(old, size, old_root, path):
    if old == size:
        return [old_root, old_root] if not path else None
    at, last = old - 1, size - 1
    while at % 2 == 1:
        at, last = at // 2, last // 2
    start = old_root if old & (old - 1) == 0 else path.pop(0)
    pairs = [start, start]
    return pairs if climb(at, last, path, pairs) else None

def signed(seal, size, root, key):
    if seal is None or (seal["size"], seal["root"]) != (size, root):
        return False
    lines = ["holdpin seal 1", str(size), root, seal["time"], seal["kiosk"], ""]
    with tempfile.TemporaryDirectory() as folder:
        for name, data in ("text", "\n".join(lines).encode()), ("sig", base64.b64decode(seal["signature"])):
            with open(os.path.join(folder, name), "wb") as file:
                file.write(data)
        return subprocess.run(["openssl", "pkeyutl", "-verify", "-pubin", "-inkey", os.path.abspath(key), "-rawin",
                               "-in", "text", "-sigfile", "sig"], cwd=folder, capture_output=True).returncode == 0

proof, key = json.load(open(sys.argv[1])), sys.argv[2]
path, size, root = [bytes.fromhex(h) for h in proof["path"]], proof["size"], proof["root"]
if proof["proof"] == "inclusion":
    body, n = proof["body"], proof["entry"]
    leaf = bytes.fromhex(proof["leaf"]) if body is None else hashlib.sha256(b"\x00" + body.encode()).digest()
    roots = [leaf]
    good = (body is None or json.loads(body).get("n") == n) and n <= size and climb(n - 1, size - 1, path, roots)
    good = good and roots[0].hex() == root and signed(proof["seal"], size, root, key)
    what = f"entry {n} is under the signed root of {size} entries" + ("; purged, only its leaf is left" if body is None else "")
else:
    old, old_root = proof["old_size"], proof["old_root"]
    roots = consistent(old, size, bytes.fromhex(old_root), path)
    good = roots is not None and [r.hex() for r in roots] == [old_root, root]
    seals = [(proof["old_seal"], old, old_root), (proof["seal"], size, root)]
    good = good and all(s is None or signed(s, n, r, key) for s, n, r in seals)
    what = f"the {size} entries begin with the {old}" + "".join(f"; no seal over {n}" for s, n, _ in seals if s is None)
print(("This holds: " if good else "This does NOT hold: ") + what)
sys.exit(0 if good else 1)
