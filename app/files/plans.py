"""Session plans as JSON text, as YAML for the command line, and read back."""

import json

import yaml

from app.files.yaml import parse_yaml
from curriculum.repertoire.edition import Edition
from curriculum.sessions.plan import Plan, read_plan

OPTIONAL = ("title", "level", "client", "intake", "close", "minutes", "foot_bar")


def plan_document(plan: Plan) -> dict[str, object]:
    """The plan as plain data, as `throughline plan check` reads it; what is not set is left out."""
    found = {name: getattr(plan, name) for name in OPTIONAL if getattr(plan, name)}
    factor = {} if plan.factor == 1 else {"factor": float(plan.factor)}
    client = {"client": list(plan.client)} if plan.client else {}
    return found | client | factor | {"exercises": list(plan.exercises)}


def write_plan(plan: Plan) -> str:
    """The plan as JSON."""
    return json.dumps(plan_document(plan), ensure_ascii=False)


def plan_yaml(plan: Plan) -> str:
    """The plan as YAML, to be taken away."""
    return yaml.safe_dump(plan_document(plan), allow_unicode=True, sort_keys=False)


def plan_from(text: str, edition: Edition) -> tuple[Plan, tuple[str, ...]]:
    """The plan in a JSON text, and the ids in it that the edition does not have (they are left out)."""
    found = json.loads(text)
    known = {one.id for one in edition.exercises}
    kept = [id for id in found.pop("exercises") if id in known]
    lost = tuple(id for id in json.loads(text)["exercises"] if id not in known)
    codes = {one.code for one in edition.cautions}
    found["client"] = [code for code in found.get("client", ()) if code in codes]
    if found.get("level") not in {one.id for one in edition.levels}:
        found.pop("level", None)
    # A plan may be empty while it is being made; a document without exercises would be refused.
    whole = found | {"exercises": kept or [edition.exercises[0].id]}
    plan = read_plan(parse_yaml(json.dumps(whole, ensure_ascii=False), "plan"), edition)
    return (plan if kept else _without(plan)), lost


def _without(plan: Plan) -> Plan:
    values = {name: getattr(plan, name) for name in plan.__dataclass_fields__}
    return Plan(**values | {"exercises": ()})
