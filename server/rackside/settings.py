"""What the environment decides, as one object."""

from pathlib import Path

from pydantic import Field
from pydantic_settings import BaseSettings, SettingsConfigDict


class Settings(BaseSettings):
    """Every value can be set by an environment variable of its name with RACKSIDE_ before it."""

    model_config = SettingsConfigDict(env_prefix="RACKSIDE_", extra="ignore")

    database_url: str = Field("sqlite:///rackside.db", description="SQLite file, or postgresql://… for PostgreSQL")
    photos: Path = Field(Path("photos"), description="Folder of the photos, by content")
    host: str = Field("127.0.0.1", description="Address to listen on")
    port: int = Field(8000, description="Port to listen on")
    threads: int = Field(8, description="Threads that answer requests")
    device_days: int = Field(30, description="Days a phone's sign-in is good for")
    session_hours: int = Field(12, description="Hours an office sign-in is good for")
    body_limit: int = Field(16 * 1024 * 1024, description="Largest request body in bytes")
    entry_limit: int = Field(256 * 1024, description="Largest entry in bytes")
    batch_limit: int = Field(500, description="Most entries in one push")
    currency: str = Field("USD", pattern=r"^[A-Z]{3}$", description="Currency of a line that names none, by ISO 4217")
    photo_limit: int = Field(2 * 1024 * 1024, description="Largest photo in bytes")
    busy_seconds: float = Field(10.0, description="Longest wait for the database's one writer")
    webhooks_private: bool = Field(False, description="Let webhooks lead to private addresses and plain http")
    log_json: bool = Field(False, description="Write the log as JSON lines")
