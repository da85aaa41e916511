"""Where a webhook may lead: never into the server's own network, unless the settings allow it."""

import ipaddress
import socket
from urllib.parse import urlsplit

Address = ipaddress.IPv4Address | ipaddress.IPv6Address
# IPv4 carried inside IPv6 by translation (RFC 6052): the address that counts is the last four bytes.
TRANSLATED = ipaddress.ip_network("64:ff9b::/96")


class Forbidden(Exception):
    """An address that must not be connected to."""


def url_fault(url: str, private: bool) -> str | None:
    """Return what is wrong with a webhook's URL, as far as can be said without asking for its host."""
    try:
        parts = urlsplit(url)
        host, port = parts.hostname, parts.port
    except ValueError as error:
        return f"This is no URL: {error}."
    if parts.scheme != "https" and not (private and parts.scheme == "http"):
        return "The URL must begin with https://."
    if (
        not host
        or port == 0
        or parts.username is not None
        or parts.fragment
        or not url.isascii()
        or not url.isprintable()
    ):
        return "The URL needs a host, and no name, password, fragment, blank or foreign character."
    if not private and (host == "localhost" or (_literal(host) and not is_public(host))):
        return "The URL leads into a private network; RACKSIDE_WEBHOOKS_PRIVATE would allow it."
    return None


def _literal(host: str) -> bool:
    try:
        ipaddress.ip_address(host)
    except ValueError:
        return False
    return True


def is_public(text: str) -> bool:
    """Return whether an address is one of the public internet, whatever other address it carries inside."""
    address: Address = ipaddress.ip_address(text.partition("%")[0])
    inside = [address]
    if isinstance(address, ipaddress.IPv6Address):
        carried = [address.ipv4_mapped, address.sixtofour, *(address.teredo or ())]
        if address in TRANSLATED:
            carried.append(ipaddress.IPv4Address(address.packed[-4:]))
        inside += [one for one in carried if one is not None]
        inside = inside[1:] if address.ipv4_mapped else inside
    return all(one.is_global and not one.is_multicast for one in inside)


def resolved(host: str, port: int, private: bool) -> str:
    """Return the address to connect to; the connection must go to this very address, not to the name again."""
    found = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)
    addresses = list(dict.fromkeys(str(one[4][0]) for one in found))
    if not private and not all(map(is_public, addresses)):
        raise Forbidden(f"{host} leads into a private network")
    return addresses[0]
