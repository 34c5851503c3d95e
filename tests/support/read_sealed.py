#!/usr/bin/env python3
"""Reads a sealed records file without SQLite, as the design of SQLCipher 4 describes its format
(https://www.zetetic.net/sqlcipher/design/): pages of 4096 bytes, each AES-256 in CBC mode, with 80 bytes at its end for the
initialisation vector and an HMAC-SHA512 over the encrypted bytes, the vector and the page's number; the first 16 bytes of the
file are the salt. With a raw key the HMAC's key is PBKDF2-HMAC-SHA512 of it, two rounds, with the salt's bytes XOR 0x3a. What
is committed in the log beside it counts (https://www.sqlite.org/fileformat2.html#the_write_ahead_log).

    read_sealed.py SEALED KEY-IN-HEX PLAIN     writes the plain database, or fails at the first page that was altered
"""
import hashlib
import hmac
import os
import subprocess
import sys

PAGE, RESERVED, VECTOR, SALT = 4096, 80, 16, 16
HEADER, FRAME = 32, 24  # of the log


def pages_of(path):
    """The encrypted pages by their number, those of the log in the place of older ones."""
    data = open(path, "rb").read()
    pages = {at // PAGE + 1: data[at:at + PAGE] for at in range(0, len(data), PAGE)}
    log = open(path + "-wal", "rb").read() if os.path.exists(path + "-wal") else b""
    waiting = {}
    for at in range(HEADER, len(log) - FRAME - PAGE + 1, FRAME + PAGE):
        number, size = (int.from_bytes(log[at + i:at + i + 4], "big") for i in (0, 4))
        if log[at + 8:at + 16] != log[16:24]:
            break  # of the log before this one
        waiting[number] = log[at + FRAME:at + FRAME + PAGE]
        if size:  # a commit
            pages.update(waiting)
            pages = {page: bytes_ for page, bytes_ in pages.items() if page <= size}
            waiting = {}
    return [pages[number] for number in sorted(pages)]


def exclusive_or(one, other):
    return (int.from_bytes(one, "big") ^ int.from_bytes(other, "big")).to_bytes(len(one), "big")


def main(sealed, key, plain):
    key = bytes.fromhex(key)
    pages = pages_of(sealed)
    salt = pages[0][:SALT]
    mac_key = hashlib.pbkdf2_hmac("sha512", key, bytes(byte ^ 0x3A for byte in salt), 2, 32)
    contents, before = [], []
    for number, page in enumerate(pages, 1):
        content = page[SALT if number == 1 else 0:PAGE - RESERVED]
        vector = page[PAGE - RESERVED:PAGE - RESERVED + VECTOR]
        mac = hmac.new(mac_key, content + vector + number.to_bytes(4, "little"), hashlib.sha512).digest()
        if mac != page[PAGE - RESERVED + VECTOR:]:
            sys.exit(f"page {number} was altered")
        contents.append(content)
        before.append(vector + content[:-VECTOR])
    # One call for all pages: each block by itself, and the block before it on top, which is what CBC means.
    blocks = subprocess.run(["openssl", "enc", "-d", "-aes-256-ecb", "-nopad", "-K", key.hex()],
                            input=b"".join(contents), capture_output=True, check=True).stdout
    clear = exclusive_or(blocks, b"".join(before))
    out, at = b"SQLite format 3\0", 0
    for content in contents:
        out += clear[at:at + len(content)] + bytes(RESERVED)
        at += len(content)
    # In a plain file that lies by itself, no log is asked for.
    open(plain, "wb").write(out[:18] + b"\1\1" + out[20:])


main(*sys.argv[1:])
