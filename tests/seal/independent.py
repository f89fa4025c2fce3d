#!/usr/bin/env python3
"""Another Ed25519 (openssl) and another SHA-256 (python) judge what the program signs, and sign what the program judges."""
import datetime
import hashlib
import os
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as tree

program = sys.argv[1]
PREFIX_PUBLIC = bytes.fromhex("302a300506032b6570032100")  # RFC 8410: the ASN.1 in front of an Ed25519 public key
ELEMENT = re.compile(rb"<approval .*?</approval>", re.S)
PASSPHRASE = "four words of a nurse\n"


def run(*words, **more):
    return subprocess.run(words, capture_output=True, **more)


def must(done, why):
    if not done:
        print("WRONG:", why)
        sys.exit(1)


def statement(element):
    """What docs/protocol-format.md says is signed."""
    lines = ["rushlight approval 2"] + [element.get(name) for name in ("by", "role", "on", "until")]
    lines += [each.get("sha256") + " " + each.get("name") for each in element]
    return ("\n".join(lines) + "\n").encode()


def openssl_verifies(key_hex, signature_hex, message, folder):
    for name, data in (("key", PREFIX_PUBLIC + bytes.fromhex(key_hex)), ("sig", bytes.fromhex(signature_hex)), ("said", message)):
        with open(os.path.join(folder, name), "wb") as file:
            file.write(data)
    done = run("openssl", "pkeyutl", "-verify", "-pubin", "-keyform", "DER", "-inkey", folder + "/key", "-rawin", "-in", folder + "/said",
               "-sigfile", folder + "/sig")
    return done.returncode == 0


if run("openssl", "version").returncode != 0:
    sys.exit(77)

with tempfile.TemporaryDirectory() as folder:
    os.environ.update(XDG_CONFIG_HOME=folder + "/settings", XDG_DATA_HOME=folder + "/data", HOME=folder)
    until = (datetime.date.today() + datetime.timedelta(days=300)).isoformat()
    mine = folder + "/mine"
    must(run(program, "new-set", "mine", "--from", "reference", "--out", mine).returncode == 0, "new-set")
    must(run(program, "key", "new", input=PASSPHRASE, text=True).returncode == 0, "key new")
    approve = [program, "approve", mine, "--as", "Ana \"A\" Rill & Söhne <x>", "--role", "pediatra > jefa", "--until", until, "--yes"]
    signed = run(*approve, input=PASSPHRASE, text=True)
    must(signed.returncode == 0, signed.stderr)

    # What the program signed.
    names = sorted(os.listdir(mine))
    looked_at = 0
    for name in names:
        data = open(os.path.join(mine, name), "rb").read()
        element = tree.fromstring(data).find("approval")
        must(element.get("by") == "Ana \"A\" Rill & Söhne <x>", "the name")
        must([each.get("name") for each in element] == names, "the files")
        must(openssl_verifies(element.get("key"), element.get("signature"), statement(element), folder), "openssl refuses " + name)
        changed = statement(element).replace(b"jefa", b"jefe")
        must(not openssl_verifies(element.get("key"), element.get("signature"), changed, folder), "openssl takes a changed role")
        plain, cut = ELEMENT.subn(b"", data)
        must(cut == 1, "one element")
        hashes = {each.get("name"): each.get("sha256") for each in element}
        must(hashlib.sha256(plain).hexdigest() == hashes[name], "SHA-256 of " + name)
        looked_at += 1
    must(looked_at == 5, "five files")

    # The fingerprint, as docs/key-format.md says.
    key_hex = element.get("key")
    digest = hashlib.sha256(b"rushlight key\n" + bytes.fromhex(key_hex)).digest()
    groups = ["%05d" % (int.from_bytes(digest[at:at + 5], "big") % 100000) for at in range(0, 30, 5)]
    must(" ".join(groups) in run(program, "key", "show", text=True).stdout, "the fingerprint")

    # What openssl signs, with a key of its own.
    must(run("openssl", "genpkey", "-algorithm", "ed25519", "-out", folder + "/other.pem").returncode == 0, "genpkey")
    public = run("openssl", "pkey", "-in", folder + "/other.pem", "-pubout", "-outform", "DER").stdout[-32:].hex()
    files = {name: ELEMENT.sub(b"", open(os.path.join(mine, name), "rb").read()) for name in names}
    hashes = [(name, hashlib.sha256(files[name]).hexdigest()) for name in names]
    said = "rushlight approval 2\nEva Sol\nnurse\n%s\n%s\n" % (datetime.date.today(), until)
    said += "".join("%s %s\n" % (sha, name) for name, sha in hashes)
    with open(folder + "/said", "w", encoding="utf-8") as file:
        file.write(said)
    done = run("openssl", "pkeyutl", "-sign", "-inkey", folder + "/other.pem", "-rawin", "-in", folder + "/said", "-out", folder + "/sig")
    must(done.returncode == 0, done.stderr)
    signature = open(folder + "/sig", "rb").read().hex()
    spelled = '<approval by="Eva Sol" role="nurse" on="%s" until="%s" key="%s" signature="%s">' % (
        datetime.date.today(), until, public, signature)
    spelled += "".join('<file name="%s" sha256="%s"/>' % one for one in hashes) + "</approval>"
    for name, data in files.items():
        at = data.index(b">", data.index({"safety.xml": b"<safety", "examples.xml": b"<examples"}.get(name, b"<protocol"))) + 1
        with open(os.path.join(mine, name), "wb") as file:
            file.write(data[:at] + spelled.encode() + data[at:])
    must(run(program, "approval", mine).returncode == 1, "a key that nobody trusts")
    must(run(program, "key", "trust", public, "--yes").returncode == 0, "key trust")
    asked = run(program, "approval", mine, text=True)
    must(asked.returncode == 0, asked.stdout)
    must("Eva Sol (nurse)" in asked.stdout, asked.stdout)
print("openssl and python agree about", looked_at, "files in both directions")
