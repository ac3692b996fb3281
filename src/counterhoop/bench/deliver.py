"""Put a set of files into a folder all at once, or not at all."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Mapping
from pathlib import Path

from counterhoop.errors import BadInput, CannotDo

OURS = "made-by-counterhoop.txt"
SAYS = (
    "Counterhoop made this folder and may replace it whole.\n"
    "Copy what you want to keep to another place.\n"
)


def deliver(files: Mapping[str, bytes], *, folder: Path) -> Path:
    """Write files to a temporary folder beside the wanted one, then move it into place.

    A folder that this program made before is replaced; any other folder that holds something is
    left alone.

    Parameters
    ----------
    files : mapping
        Relative names, "/" between folders, to their bytes.
    folder : Path
        Where they shall stand.

    Raises
    ------
    BadInput
        When the folder holds files of somebody else, or is a file.
    CannotDo
        When the disk refuses.
    """
    folder = folder.resolve()
    _may_replace(folder)
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        making = Path(tempfile.mkdtemp(prefix=f".{folder.name}-", dir=folder.parent))
        try:
            for name, content in {OURS: SAYS.encode(), **files}.items():
                path = making / name
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_bytes(content)
            making.chmod(0o755)
            _swap(making, folder)
        except BaseException:
            shutil.rmtree(making, ignore_errors=True)
            raise
    except OSError as fault:
        raise CannotDo(
            f"cannot write the papers to {folder}: {fault.strerror or fault}."
            " Nothing was changed; choose another folder with --to."
        ) from None
    return folder


def deliver_file(content: bytes, *, path: Path) -> Path:
    """Write one file by way of a temporary one beside it; never over a file that is there."""
    if path.exists():
        raise BadInput(
            "there is a file of that name already",
            given=str(path),
            wanted="a name that is free",
        )
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, making = tempfile.mkstemp(prefix=f".{path.name}-", dir=path.parent)
        with os.fdopen(handle, "wb") as out:
            out.write(content)
        os.chmod(making, 0o644)
        os.replace(making, path)
    except OSError as fault:
        raise CannotDo(f"cannot write {path}: {fault.strerror or fault}.") from None
    return path


def _may_replace(folder: Path) -> None:
    if folder.is_file():
        raise BadInput("that is a file", given=str(folder), wanted="the name of a folder")
    if folder.is_dir() and any(folder.iterdir()) and not (folder / OURS).is_file():
        raise BadInput(
            "that folder holds other files",
            given=str(folder),
            wanted="a new folder, or one that earlier papers were written to",
        )


def _swap(making: Path, folder: Path) -> None:
    if not folder.exists():
        os.replace(making, folder)
        return
    aside = folder.with_name(f".{folder.name}-before")
    shutil.rmtree(aside, ignore_errors=True)
    os.replace(folder, aside)
    try:
        os.replace(making, folder)
    except OSError:
        os.replace(aside, folder)
        raise
    shutil.rmtree(aside, ignore_errors=True)
