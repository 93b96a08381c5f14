"""Holds xAPI statements against IEEE 9274.1.1, as far as this program writes them.

python3 read_statements.py FILE; says verb, actor and entry of each. The rules are from memory.
"""
import datetime
import json
import sys
import uuid

ALLOWED = {"id", "actor", "verb", "object", "result", "context", "timestamp", "version"}
for statement in json.load(open(sys.argv[1], encoding="utf-8")):
    assert set(statement) <= ALLOWED, set(statement) - ALLOWED
    assert str(uuid.UUID(statement["id"])) == statement["id"]
    actor = statement["actor"]
    assert actor["objectType"] == "Agent" and set(actor) == {"objectType", "account"}
    assert set(actor["account"]) == {"homePage", "name"}
    for iri in (statement["verb"]["id"], statement["object"]["id"], actor["account"]["homePage"]):
        assert iri.startswith(("http://", "https://")), iri
    assert statement["object"]["objectType"] == "Activity"
    datetime.datetime.fromisoformat(statement["timestamp"].replace("Z", "+00:00"))
    score = statement.get("result", {}).get("score")
    if score:
        assert score["min"] <= score["raw"] <= score["max"] and -1 <= score["scaled"] <= 1
    numbers = [value for key, value in statement["context"]["extensions"].items()
               if key.endswith("/entry")]
    assert len(numbers) == 1
    print(statement["verb"]["id"].rsplit("/", 1)[1], actor["account"]["name"], numbers[0])
