"""The application: everything wired together, here only."""

import gc
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

import anyio.to_thread
import structlog
from fastapi import FastAPI
from starlette.middleware.gzip import GZipMiddleware

from rackside import __version__, api, office, phone
from rackside.api import errors
from rackside.api.bounded import BoundedBody
from rackside.api.document import document
from rackside.headers import SecurityHeaders
from rackside.hooks.courier import Courier
from rackside.records import Database
from rackside.settings import Settings

# A push makes thousands of objects that are gone a moment later: the collector need not look at each of them.
SELDOM = (50_000, 20, 20)
DESCRIPTION = """
Records of diagnosed refrigeration compressors: kept by phones and other software, judged by one engine.

Send the token of `POST /devices`, or a key, as `Authorization: Bearer TOKEN`. Errors are RFC 9457 problem details whose
`code` never changes its meaning and whose `remedy` says what to do. Lists answer `{"items", "next"}`, newest first; ask
for the following page with `next`.
"""


def create_app(settings: Settings | None = None) -> FastAPI:
    """Return the application; refuses without the page's third-party files."""
    settings = settings or Settings()
    _configure_log(settings.log_json)
    phone.release()
    app = FastAPI(
        title="Rackside",
        version=__version__,
        description=DESCRIPTION,
        openapi_url="/api/v1/openapi.json",
        docs_url=None,
        redoc_url=None,
        lifespan=_lifespan,
    )
    app.openapi = lambda: document(app)  # type: ignore[method-assign]
    app.state.settings = settings
    app.state.addresses = api.ADDRESSES
    app.state.database = Database(settings.database_url, settings.busy_seconds)
    errors.install(app)
    app.add_middleware(BoundedBody, limit=settings.body_limit)
    app.add_middleware(GZipMiddleware, minimum_size=1000, compresslevel=4)
    app.add_middleware(SecurityHeaders)
    app.include_router(api.router)
    app.include_router(office.router)
    app.include_router(phone.router)
    return app


@asynccontextmanager
async def _lifespan(app: FastAPI) -> AsyncIterator[None]:
    anyio.to_thread.current_default_thread_limiter().total_tokens = app.state.settings.threads
    await anyio.to_thread.run_sync(app.state.database.migrate)
    gc.freeze()
    gc.set_threshold(*SELDOM)
    courier = Courier(app.state.database, app.state.settings.webhooks_private)
    courier.start()
    yield
    await anyio.to_thread.run_sync(courier.stop)
    app.state.database.close()


def _configure_log(as_json: bool) -> None:
    """Write lines for people, or JSON lines for a collector; never the values of variables, which may be secret."""
    for_people = structlog.dev.ConsoleRenderer(colors=False, exception_formatter=structlog.dev.plain_traceback)
    structlog.configure(
        processors=[
            structlog.processors.add_log_level,
            structlog.processors.TimeStamper(fmt="iso", utc=True),
            *([structlog.processors.format_exc_info] if as_json else []),
            structlog.processors.JSONRenderer() if as_json else for_people,
        ]
    )
