"""Carries messages out of the outbox for as long as the server runs; several servers share the work."""

import random
import threading
from concurrent.futures import ThreadPoolExecutor
from datetime import datetime, timedelta

import structlog

from rackside.hooks.sending import Sender, Sent
from rackside.records import Database, clock, outbox, webhooks
from rackside.records.webhooks import Message, Settled

# Waits after each failed attempt, about three days in all; after the last the message is dead and waits for a person.
WAITS = tuple(timedelta(seconds=each) for each in (5, 300, 1800, 7200, 18000, 36000, 50400, 72000, 72000))
LONGEST_WISH = timedelta(days=1)
PAUSE = timedelta(minutes=1)
BATCH, AT_ONCE, SILENT_IN_A_ROW = 20, 8, 3
LOOK_EVERY, WATCHES_EVERY = 0.5, 30.0
GONE = 410
log = structlog.get_logger("rackside.hooks")


def following(message: Message, sent: Sent, now: datetime) -> Settled:
    """Return what becomes of a message after an attempt; a test is tried once. Pure but for the jitter."""
    attempt = {"at": clock.written(now), "status": sent.status, "error": sent.error}
    if sent.delivered:
        return Settled(message, "delivered", clock.written(now), attempt)
    if message.attempts >= len(WAITS) or sent.status == GONE or message.event == outbox.TEST:
        return Settled(message, "dead", clock.written(now), attempt)
    wait = WAITS[message.attempts] * random.uniform(0.9, 1.1)
    wished = min(timedelta(seconds=sent.retry_after), LONGEST_WISH)
    return Settled(message, "pending", clock.written(now + max(wait, wished)), attempt)


class Courier:
    """A thread that looks for due messages, and a few that send them: one address is served by one at a time."""

    def __init__(self, database: Database, private: bool) -> None:
        self._database = database
        self._sender = Sender(private)
        self._stopped = threading.Event()
        self._busy: set[str] = set()
        self._pool = ThreadPoolExecutor(AT_ONCE, thread_name_prefix="courier")
        self._thread = threading.Thread(target=self._run, name="courier", daemon=True)

    def start(self) -> None:
        self._thread.start()

    def stop(self) -> None:
        """Finish the messages on their way, give back the rest."""
        self._stopped.set()
        self._thread.join()
        self._pool.shutdown()
        self._sender.close()

    def _run(self) -> None:
        rounds = 0
        while not self._stopped.is_set():
            try:
                if rounds % round(WATCHES_EVERY / LOOK_EVERY) == 0:
                    self._note_watches()
                self._look()
            except Exception as error:
                log.error("the outbox could not be read", exc_info=error)
            rounds += 1
            self._stopped.wait(LOOK_EVERY)

    def _note_watches(self) -> None:
        with self._database.reading() as connection:
            due = outbox.due_watches(connection)
        if due:
            with self._database.writing() as connection:
                outbox.note_watches(connection)

    def _look(self) -> None:
        free = AT_ONCE - len(self._busy)
        if free <= 0:
            return
        with self._database.reading() as connection:
            found = webhooks.waiting(connection, self._busy, free)
        for webhook_id in found:
            self._busy.add(webhook_id)
            self._pool.submit(self._serve, webhook_id)

    def _serve(self, webhook_id: str) -> None:
        try:
            while not self._stopped.is_set() and self.serve_once(webhook_id):
                pass
        except Exception as error:
            log.error("messages could not be sent", webhook=webhook_id, exc_info=error)
        finally:
            self._busy.discard(webhook_id)

    def serve_once(self, webhook_id: str) -> bool:
        """Send one batch of what is due to an address; return whether to go on with it."""
        webhook, messages = webhooks.claim(self._database, webhook_id, BATCH)
        settled: list[Settled] = []
        silent = 0
        for message in messages:
            if self._stopped.is_set() or silent >= SILENT_IN_A_ROW:
                pause = PAUSE if silent else timedelta(0)
                settled.append(Settled(message, "pending", clock.written(clock.now() + pause), None))
                continue
            signed_by = webhooks.secrets_of(webhook)
            sent = self._sender.send(webhook.url, signed_by, message.id, message.payload, clock.now())
            silent = silent + 1 if sent.status is None else 0
            settled.append(following(message, sent, clock.now()))
        gone = any(one.attempt is not None and one.attempt["status"] == GONE for one in settled)
        webhooks.settle(self._database, webhook_id, settled, gone)
        return bool(messages) and silent < SILENT_IN_A_ROW and not gone
