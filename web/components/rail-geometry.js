// Where everything on a rail stands, from one finding. The rule is written down in server/docs/rail.md. Pure.

const HIGH_END = 16;
const LOW_END = 136;
const MIDDLE = 76;

/**
 * @param {Finding} finding
 * @returns {any} numbers for the drawing
 */
export function railGeometry(finding) {
  const legs = drawnLegs(finding);
  const places = legs.map((leg) => positionOf(leg, finding));
  const bounds = boundsOf(finding.limits.filter((limit) => (limit.unit ?? finding.unit) === finding.unit), places);
  const scale = scaleOf(bounds, places);
  const y = (value) => tenth(LOW_END - (LOW_END - HIGH_END) * scale.share(clip(value, scale.a, scale.b)));
  const rails = legs.map((leg, i) => oneRail({ leg, place: places[i], x: 30 + 60 * i, bounds, scale, y, finding }));
  return { width: 60 * Math.max(1, legs.length), rails, bounds, deviation: places.some((place) => place.deviation) };
}

/** The legs, or the finding as one leg where no leg has a place on the limits' scale. */
function drawnLegs(finding) {
  const placed = finding.legs.some((leg) => positionOf(leg, finding).p !== null);
  if (placed || (finding.legs.length && finding.value === null)) return finding.legs;
  return [{ leg: "", value: finding.value, unit: finding.unit, verdict: finding.verdict, uncertainty: finding.uncertainty }];
}

function positionOf(leg, finding) {
  if (typeof leg.judged === "number") return { p: leg.judged, bound: leg.bound, deviation: false };
  if (leg.deviation !== undefined && leg.deviation !== null && leg.deviation_unit === finding.unit) return { p: leg.deviation, deviation: true };
  const { p, bound } = numberOf(leg.value);
  return leg.unit === finding.unit ? { p, bound, deviation: false } : { p: null, deviation: false };
}

function numberOf(value) {
  if (typeof value === "number") return { p: value, bound: "" };
  const found = /^([<>]?)([+-]?\d+(?:\.\d+)?)$/.exec(String(value ?? ""));
  return found ? { p: Number(found[2]), bound: found[1] } : { p: null, bound: "" };
}

const least = (numbers) => (numbers.length ? Math.min(...numbers) : null);
const greatest = (numbers) => (numbers.length ? Math.max(...numbers) : null);

/** Inner and outer bound on each side; null where there is none. */
function boundsOf(limits, places) {
  const of = (verdict, side) => limits.filter((limit) => limit.verdict === verdict && typeof limit[side] === "number").map((limit) => limit[side]);
  const high = { inner: least(of("watch", "above")), outer: least(of("fail", "above")) };
  const low = { inner: greatest(of("watch", "below")), outer: greatest(of("fail", "below")) };
  const filled = { high: fill(high), low: fill(low) };
  const known = places.filter((place) => place.p !== null);
  const mirrored = known.length > 0 && known.every((place) => place.deviation) && filled.low === null && filled.high !== null;
  return mirrored ? { high: filled.high, low: { inner: -filled.high.inner, outer: -filled.high.outer } } : filled;
}

function fill({ inner, outer }) {
  if (inner === null && outer === null) return null;
  return { inner: inner ?? outer, outer: outer ?? inner };
}

function scaleOf({ high, low }, places) {
  if (high && low) {
    const pad = (high.outer - low.outer) / 4;
    return linear(low.outer - pad, high.outer + pad);
  }
  if (high) return linear(0, 1.5 * high.outer);
  if (low && low.inner < 0) return linear(1.5 * low.outer, 0);
  if (low) return low.outer > 0 && low.inner >= 5 * low.outer ? logarithmic(low.outer / 10, low.inner * 10) : linear(0, 2 * low.inner);
  const size = greatest(places.filter((place) => place.p !== null).map((place) => Math.abs(place.p)));
  return linear(0, size ? 1.25 * size : 1);
}

function linear(a, given) {
  const b = given > a ? given : a + 1;
  return { a, b, share: (v) => (v - a) / (b - a) };
}

function logarithmic(a, b) {
  const width = Math.log10(b) - Math.log10(a);
  return { a, b, share: (v) => (Math.log10(v) - Math.log10(a)) / width };
}

function oneRail({ leg, place, x, bounds, scale, y, finding }) {
  const verdict = leg.verdict ?? finding.verdict;
  const base = { x, name: leg.leg, verdict, dashed: place.p === null, near: near(bounds, y), band: band(bounds, y) };
  if (place.p === null) return { ...base, y: MIDDLE, verdict: "cannot_tell", whisker: null, off: null };
  const off = offScale(place, bounds, scale);
  return { ...base, y: y(place.p), whisker: whisker(place.p, leg.uncertainty ?? finding.uncertainty, scale, y), off };
}

/** Beyond which end the reading lies: "high", "low" or null. */
function offScale({ p, bound }, { high, low }, { a, b }) {
  if (p > b || (bound === ">" && aboveBand(p, high, low))) return "high";
  return p < a ? "low" : null;
}

function aboveBand(p, high, low) {
  if (high) return p > high.inner;
  return low ? p > low.inner : true;
}

function near({ high, low }, y) {
  const zones = [];
  if (high && high.inner !== high.outer) zones.push(span(y(high.outer), y(high.inner)));
  if (low && low.inner !== low.outer) zones.push(span(y(low.inner), y(low.outer)));
  return zones;
}

function band({ high, low }, y) {
  if (!high && !low) return null;
  return span(high ? y(high.inner) : HIGH_END, low ? y(low.inner) : LOW_END);
}

const span = (top, bottom) => ({ y: top, height: tenth(bottom - top) });

function whisker(p, uncertainty, { a, b }, y) {
  if (!uncertainty) return null;
  const [low, high] = [p - uncertainty, p + uncertainty];
  return { top: y(high), bottom: y(low), capTop: high <= b, capBottom: low >= a };
}

const clip = (value, a, b) => Math.min(b, Math.max(a, value));
const tenth = (value) => Math.round(value * 10) / 10;
