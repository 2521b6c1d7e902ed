#!/usr/bin/env python3
"""The files of a kitchen against the JSON Schemas that `spence keys --schema` writes, by a validator of the registries (jsonschema, draft 2020-12).

    pip install jsonschema
    cargo run -- keys --schema SOME-FOLDER/schemas
    python3 tests/outside/schema_check.py SOME-FOLDER/schemas sample-data

Dates and times without quotes are read as texts, as TOML editors do.
"""

import datetime
import json
import pathlib
import sys
import tomllib

import jsonschema


def plain(value):
    if isinstance(value, dict):
        return {key: plain(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [plain(inner) for inner in value]
    if isinstance(value, (datetime.date, datetime.time, datetime.datetime)):
        return value.isoformat()
    return value


def main(schemas, kitchen):
    wrong = 0
    for name, pattern in [
        ("kitchen", "kitchen.toml"),
        ("recipe", "recipes/*.toml"),
        ("week", "weeks/*.toml"),
        ("pantry", "pantry.toml"),
        ("shops", "shops.toml"),
        ("foods", "foods.toml"),
        ("meals", "meals.toml"),
    ]:
        path = schemas / f"{name}.schema.json"
        if not path.exists():
            continue
        validator = jsonschema.Draft202012Validator(json.loads(path.read_text()))
        for file in sorted(kitchen.glob(pattern)):
            errors = list(validator.iter_errors(plain(tomllib.loads(file.read_text()))))
            wrong += len(errors)
            print(f"{file}: {'holds' if not errors else ''}")
            for error in errors:
                print(f"  {list(error.absolute_path)}: {error.message[:200]}")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])))
