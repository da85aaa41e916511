"""One connection to a server: problems as exceptions, waiting as told, lists page by page."""

import time
from collections.abc import Iterator
from typing import Any

import httpx

Json = dict[str, Any]
WORTH_WAITING = (429, 503)
LONGEST_WAIT = 60
TRIES = 4


class RacksideError(Exception):
    """A request refused: `code` never changes its meaning, `remedy` says what to do."""

    def __init__(self, status: int, problem: Json) -> None:
        self.status = status
        self.code: str = problem.get("code", "no_problem_told")
        self.detail: str = problem.get("detail", "")
        self.remedy: str = problem.get("remedy", "")
        self.errors: list[Json] = problem.get("errors", [])
        super().__init__(f"{self.code}: {self.detail} {self.remedy}".strip())


class EntryRefused(RacksideError):
    """An entry refused in a push; the others of the push were taken."""

    def __init__(self, result: Json) -> None:
        super().__init__(200, result)
        self.id: str | None = result["id"]


class Connection:
    """Sends requests with a token; a busy server is asked again after the time it names."""

    def __init__(self, url: str, token: str | None = None, timeout: float = 60.0) -> None:
        headers = {"Authorization": f"Bearer {token}"} if token else {}
        self.http = httpx.Client(
            base_url=url.rstrip("/") + "/api/v1", headers=headers, timeout=timeout, trust_env=False
        )

    def answer(self, method: str, path: str, **content: Any) -> httpx.Response:
        """Return an answer that is no refusal."""
        for last in range(TRIES):
            answer = self.http.request(method, path, **content)
            if not answer.is_error:
                return answer
            wait = _wait(answer)
            if wait is None or last == TRIES - 1:
                break
            time.sleep(wait)
        raise RacksideError(answer.status_code, _problem(answer))

    def ask(self, method: str, path: str, **content: Any) -> Any:
        """Return the JSON of an answer, None when there is nothing in it."""
        answer = self.answer(method, path, **content)
        return answer.json() if answer.content else None

    def listed(self, path: str, **query: Any) -> Iterator[Any]:
        """Yield every item of a list, asking for its pages as they are needed."""
        asked = {name: value for name, value in query.items() if value is not None}
        while True:
            page = self.ask("GET", path, params=asked)
            yield from page["items"]
            if page["next"] is None:
                return
            asked["next"] = page["next"]


def _wait(answer: httpx.Response) -> int | None:
    told = answer.headers.get("retry-after", "")
    worth = answer.status_code in WORTH_WAITING and told.isdecimal() and int(told) <= LONGEST_WAIT
    return int(told) if worth else None


def _problem(answer: httpx.Response) -> Json:
    try:
        told = answer.json()
    except ValueError:
        told = None
    return told if isinstance(told, dict) else {"detail": answer.text[:500]}
