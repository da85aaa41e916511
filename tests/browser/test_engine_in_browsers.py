"""The phone's worker answers as the server does, in Chromium and in WebKit."""

import json
from typing import Any

from playwright.sync_api import Browser
from selenium import webdriver

from tests.engine.judging import judge_case
from tests.engine.runtimes import difference
from tests.engine.test_runtimes import requests
from tests.fixtures.servers import Server

# Starts the page's own worker and hands it every request in turn.
ASK_THE_WORKER = """
async (requests) => {
  const worker = new Worker("/judge/worker.js", { type: "module" });
  const waiting = new Map();
  const heard = (id) => new Promise((resolve, reject) => waiting.set(id, { resolve, reject }));
  worker.addEventListener("message", ({ data }) => {
    const { resolve, reject } = waiting.get(data.id) ?? {};
    data.error ? reject?.(new Error(data.error)) : resolve?.(data.text);
  });
  await heard(0);
  const answers = [];
  for (const [index, [door, ...texts]] of requests.entries()) {
    const answer = heard(index + 1);
    worker.postMessage({ id: index + 1, door, texts });
    answers.push(await answer);
  }
  worker.terminate();
  return answers;
}
"""
ASKED = requests()[::3]


def differences(answers: list[str]) -> list[str]:
    """Compare a browser's answers with those of the engine here; the digest is that of the server's own files."""
    found = []
    for index, (request, text) in enumerate(zip(ASKED, answers, strict=True)):
        here, there = judged_here(request), json.loads(text)
        assert len(there["engine"].pop("digest")) == 64
        here["engine"].pop("digest")
        found.append(difference(here, there, f"case {index}"))
    return [told for told in found if told]


def judged_here(request: list[str]) -> dict[str, Any]:
    return judge_case(json.loads(request[1]))


def test_chromium_answers_alike(served: Server, chromium: Browser) -> None:
    page = chromium.new_page()
    page.goto(served.url)
    assert differences(page.evaluate(ASK_THE_WORKER, ASKED)) == []


def test_webkit_answers_alike(served: Server, webkit: webdriver.WebKitGTK) -> None:
    webkit.get(served.url)
    ask = f"const done = arguments[1]; ({ASK_THE_WORKER})(arguments[0]).then(done, (error) => done(String(error)));"
    answers = webkit.execute_async_script(ask, ASKED)
    assert isinstance(answers, list), answers
    assert differences(answers) == []
