"""Build the handbook beside, then replace file by file, the front page last."""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import tempfile
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from formulas.fault import FormulasError
from site_builder import apart
from site_builder.places import CONTENT, FORMULAS, HERE, TABLES, TEMPLATES

MANIFEST = "manifest.json"
MADE_BY = "benchbinder"
README = TEMPLATES / "output-readme.md"


class NotOurs(FormulasError, FileExistsError):
    """A file in the way of a build that no build made."""

    def __init__(self, path: Path) -> None:
        self.path = path
        super().__init__(
            f"found '{path}', which no build of ours wrote, accepted: an empty folder or one"
            " that a build filled; nothing was changed."
        )


Manifest = dict[str, Any]


def put(out: Path, made: Mapping[str, bytes], before: Manifest, said: Manifest) -> None:
    """Write files beside, move each to its place, take away what is no longer made.

    `before` is the manifest of the last time, `said` what the new one tells beside the names.
    Raises NotOurs for a file in the way that was not made before.
    """
    names = sorted(made)
    out.mkdir(parents=True, exist_ok=True)
    _refuse_strangers(out, names, before)
    beside = Path(tempfile.mkdtemp(prefix=".building-", dir=out))
    try:
        for name in names:
            (beside / name).parent.mkdir(parents=True, exist_ok=True)
            (beside / name).write_bytes(made[name])
        _replace(beside, out, names, {**said, "files": names})
    finally:
        shutil.rmtree(beside, ignore_errors=True)
    _remove(out, before, names)


def _remove(out: Path, before: dict[str, Any], made: Iterable[str]) -> None:
    for gone in set(before.get("files", [])) - set(made):
        (out / gone).unlink(missing_ok=True)


def publish(shop: Path, out: Path) -> str:
    """Build a shop's handbook into a folder and say what was done.

    Nothing is written when the inputs are those of the last build. Raises Faults before
    anything is touched, and NotOurs for a folder that a build did not make.
    """
    before = manifest_of(out, MADE_BY)
    digest = inputs_digest(shop)
    if before.get("inputs") == digest and all((out / name).is_file() for name in before["files"]):
        return f"{out}: nothing has changed since the last build."
    out.mkdir(parents=True, exist_ok=True)
    beside = Path(tempfile.mkdtemp(prefix=".building-", dir=out))
    try:
        leaves, sides, remarks = _write(shop, beside, _sides(before))
        made = sorted(str(p.relative_to(beside).as_posix()) for p in _files(beside))
        _refuse_strangers(out, made, before)
        manifest = {"made_by": MADE_BY, "inputs": digest, "files": made, "sides": sides}
        _replace(beside, out, made, manifest)
    finally:
        shutil.rmtree(beside, ignore_errors=True)
    _remove(out, before, made)
    done = f"{out / 'index.html'}: {leaves} leaves, {len(made)} files; {out / 'binder.pdf'}"
    return "\n".join([done, *remarks])


def _sides(before: Manifest) -> dict[str, int]:
    """Give the sides that the leaves had when they were last built."""
    sides = before.get("sides")
    told = sides.items() if isinstance(sides, dict) else ()
    return {name: count for name, count in told if isinstance(count, int) and count > 0}


def _write(
    shop: Path, beside: Path, sides: Mapping[str, int]
) -> tuple[int, dict[str, int], list[str]]:
    """Write everything a build makes into a folder of its own.

    What hangs on no leaf is made beside while the leaves are read, the screen while the binder
    is set, which begins from the sides that the leaves had.

    Gives the count of leaves, the sides that they have, and a remark for each character that
    paper cannot show.
    """
    from concurrent.futures import ThreadPoolExecutor

    from formulas.catalog import load
    from formulas.jobs.own_figures import reckoned_elsewhere
    from site_builder import content
    from site_builder.leaves import states
    from site_builder.paper import binder
    from site_builder.screen import site

    with apart.begun(beside) as others, ThreadPoolExecutor(1) as thread:
        catalog = load(shop)
        others.give(catalog)
        reckoned_elsewhere(catalog, others.figures)
        handbook = content.read(catalog)
        book = binder.written(handbook)
        paper = thread.submit(binder.laid, book, sides)
        scripts = others.assets(handbook.catalog)
        site.write(handbook, beside, states.words(book), scripts)
        data, at = paper.result()
        (beside / "binder.pdf").write_bytes(data)
    shutil.copyfile(README, beside / "README.md")
    _copy_tables(TABLES, beside / "tables")
    _copy_tables(shop, beside / "tables" / "shop")
    remarks = [
        f"binder.pdf: no font has '{char}', printed as [U+{ord(char):04X}] in {', '.join(leaves)}"
        for char, leaves in book.missing.items()
    ]
    return len(handbook.leaves), binder.sides_of(at), remarks


def _copy_tables(folder: Path, to: Path) -> None:
    tables = sorted(folder.glob("*.csv"))
    if not tables:
        return
    to.mkdir(parents=True, exist_ok=True)
    for path in [*tables, *folder.glob("datapackage.json")]:
        shutil.copyfile(path, to / path.name)


def _replace(beside: Path, out: Path, made: list[str], manifest: dict[str, Any]) -> None:
    """Move each file to its place; the front page, then the manifest, come last."""
    for name in sorted(made, key=lambda name: (name == "index.html", name)):
        (out / name).parent.mkdir(parents=True, exist_ok=True)
        os.replace(beside / name, out / name)  # noqa: PTH105 - the name says what it does
    (beside / MANIFEST).write_text(json.dumps(manifest, indent=1) + "\n", encoding="utf-8")
    os.replace(beside / MANIFEST, out / MANIFEST)  # noqa: PTH105


def manifest_of(out: Path, made_by: str) -> dict[str, Any]:
    """Give what was written there last. Raises NotOurs for a folder with other things in it."""
    path = out / MANIFEST
    if path.is_file():
        try:
            found = json.loads(path.read_text(encoding="utf-8"))
        except ValueError as error:
            raise NotOurs(path) from error
        if isinstance(found, dict) and found.get("made_by") == made_by:
            return found
        raise NotOurs(path)
    if out.exists() and not out.is_dir():
        raise NotOurs(out)
    strangers = [p for p in out.iterdir() if p.name != "README.md"] if out.is_dir() else []
    if strangers:
        raise NotOurs(sorted(strangers)[0])
    return {}


def _refuse_strangers(out: Path, made: list[str], before: dict[str, Any]) -> None:
    ours = {*before.get("files", []), "README.md"}
    for name in made:
        if name not in ours and (out / name).exists():
            raise NotOurs(out / name)


def inputs_digest(shop: Path) -> str:
    """Give one digest of all that a build depends on: code, words, tables, shop, libraries."""
    from importlib.metadata import version

    digest = hashlib.sha256()
    for name in ("typst", "Markdown", "Jinja2", "pymdown-extensions"):
        digest.update(f"{name} {version(name)}\n".encode())
    for root in (FORMULAS, HERE, CONTENT, shop):
        for path in _files(root):
            digest.update(str(path.relative_to(root).as_posix()).encode() + b"\0")
            digest.update(hashlib.sha256(path.read_bytes()).digest())
    return digest.hexdigest()


def _files(root: Path) -> Iterable[Path]:
    return sorted(
        p
        for p in root.rglob("*")
        if p.is_file() and "__pycache__" not in p.parts and not p.name.startswith(".")
    )
