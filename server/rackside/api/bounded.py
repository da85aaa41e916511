"""No request's body is read further than the limit, whichever route it is for."""

from starlette.exceptions import HTTPException
from starlette.types import ASGIApp, Message, Receive, Scope, Send


class BoundedBody:
    """Refuses a body as soon as it is larger than allowed."""

    def __init__(self, app: ASGIApp, limit: int) -> None:
        self.app, self.limit = app, limit

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        size = 0

        async def receive_bounded() -> Message:
            nonlocal size
            message = await receive()
            size += len(message.get("body", b""))
            if size > self.limit:
                raise HTTPException(413, f"At most {self.limit} bytes are taken.")
            return message

        await self.app(scope, receive_bounded if scope["type"] == "http" else receive, send)
