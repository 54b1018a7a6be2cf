"""validate.py SCHEMA DOCUMENT...: exit 0 when every document follows the JSON Schema (2020-12)."""
import json
import sys

import jsonschema


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        schema = json.load(file)
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    bad = 0
    for path in sys.argv[2:]:
        with open(path, encoding="utf-8") as file:
            for error in validator.iter_errors(json.load(file)):
                print(f"{path}: {error.json_path}: {error.message}", file=sys.stderr)
                bad += 1
    return 1 if bad else 0


sys.exit(main())
