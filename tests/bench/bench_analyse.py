"""What the server adds to the judge: POST /analyse beside judge() in this process, in turns. A figure, not a gate."""

import json
import time
from statistics import median

import httpx

from rackside import host
from tests.bench.bench_judge import TIMES, full_case
from tests.fixtures.servers import Server


def test_analyse(served: Server) -> None:
    key, case = served.run("key", "add", "a bench", "--scope", "analyse").strip(), full_case()
    headers, judged, answered = {"Authorization": f"Bearer {key}"}, [], []
    with httpx.Client(base_url=served.url, headers=headers, trust_env=False) as http:
        for _ in range(TIMES):
            started = time.perf_counter()
            result = host.judge(json.loads(json.dumps(case)))
            between = time.perf_counter()
            answer = http.post("/api/v1/analyse", json=case)
            judged.append(between - started)
            answered.append(time.perf_counter() - between)
            assert answer.json() == result
    ratio = median(answered) / median(judged)
    print(f"\nPOST /analyse: {ratio:.2f} times judge() (budget 1.3), median {median(answered) * 1000:.1f} ms")
