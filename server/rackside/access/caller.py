"""The roles of people and the scopes of keys, as rights."""

from rackside.records.caller import Caller as Caller

ROLES = {
    "technician": frozenset({"read", "write", "analyse"}),
    "office": frozenset({"read", "write", "analyse", "review"}),
    "admin": frozenset({"read", "write", "analyse", "review", "admin"}),
}
KEY_SCOPES = ("read", "write", "analyse", "admin")


def rights_of_key(scopes: list[str]) -> frozenset[str]:
    return ROLES["admin"] if "admin" in scopes else frozenset(scopes)
