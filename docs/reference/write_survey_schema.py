"""Write the survey file's JSON Schema beside this script, or into a folder that is named."""

from __future__ import annotations

import json
import sys
from pathlib import Path

from counterhoop.shell.survey_file.schema import json_schema

NAME = "survey.schema.json"


def schema_text() -> str:
    """Return the schema as it is kept in the file."""
    return json.dumps(json_schema(), indent=2, ensure_ascii=False) + "\n"


def write_schema(folder: Path) -> Path:
    """Write the schema into a folder and return its path."""
    path = folder / NAME
    path.write_text(schema_text(), encoding="utf-8")
    return path


if __name__ == "__main__":
    print(write_schema(Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parent))
