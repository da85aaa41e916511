// The engine's own worked examples as small cases, and whether an answer agrees with them.

/** @param {any} words what the engine describes */
export function vectorsOf(words) {
  return words.checks.filter((check) => check.example).map((check) => vectorOf(check.check, check.example));
}

function vectorOf(check, { value, unit: _unit, tolerance, verdict, source: _source, readings, machine = {}, ...rest }) {
  return {
    check,
    case: { machine, rounds: [{ label: "as_found", readings }], ...rest },
    agrees: (result) => (result.rounds ?? []).some((round) => round.findings.some((finding) => agrees(finding, { check, value, tolerance, verdict }))),
  };
}

function agrees(finding, expected) {
  if (finding.check !== expected.check || (expected.verdict && finding.verdict !== expected.verdict)) return false;
  if (typeof expected.value !== "number") return true;
  return Math.abs(finding.value - expected.value) <= (expected.tolerance ?? 1e-9) * Math.max(1, Math.abs(expected.value));
}
