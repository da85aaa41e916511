"""The application: everything wired together, here only."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

import anyio.to_thread
from fastapi import FastAPI
from starlette.middleware.gzip import GZipMiddleware

from rackside import __version__, api, logs
from rackside.api import errors
from rackside.headers import SecurityHeaders
from rackside.records import Database
from rackside.settings import Settings

HERE = Path(__file__).parent
WEB = HERE / "web" if (HERE / "web").exists() else HERE.parents[1] / "web"
DESCRIPTION = (
    """Records of diagnosed refrigeration compressors: pushed by phones and other software, judged by one engine."""
)


class NotSetUp(RuntimeError):
    """The page's third-party files are not there."""


def create_app(settings: Settings | None = None) -> FastAPI:
    """Return the application; refuses without the page's third-party files."""
    settings = settings or Settings()
    if not (WEB / "vendor").is_dir():
        raise NotSetUp(f"{WEB / 'vendor'} is missing: say `make setup` first.")
    logs.configure(settings.log_json)
    app = FastAPI(
        title="Rackside",
        version=__version__,
        description=DESCRIPTION,
        openapi_url="/api/v1/openapi.json",
        docs_url=None,
        redoc_url=None,
        lifespan=_lifespan,
    )
    app.state.settings = settings
    app.state.database = Database(settings.database_url, settings.busy_seconds)
    errors.install(app)
    app.add_middleware(GZipMiddleware, minimum_size=1000, compresslevel=4)
    app.add_middleware(SecurityHeaders)
    app.include_router(api.router)
    return app


@asynccontextmanager
async def _lifespan(app: FastAPI) -> AsyncIterator[None]:
    anyio.to_thread.current_default_thread_limiter().total_tokens = app.state.settings.threads
    await anyio.to_thread.run_sync(app.state.database.migrate)
    yield
    app.state.database.close()
