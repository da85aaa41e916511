// Lets one look closer at a trend: drag to zoom, double click to see all, click a point to open its call.
import uPlot from "/vendor/uplot/uPlot.esm.js";

const HEIGHT = 260;
const DASHES = [[], [8, 5], [2, 4]];
const POINT = 9;
const MARGIN = 0.03;
const WEEK = 7 * 24 * 3600;

for (const place of document.querySelectorAll("[data-numbers]")) draw(place);

function draw(place) {
  const told = JSON.parse(place.dataset.numbers);
  const ink = getComputedStyle(place);
  const plot = new uPlot(options(told, place, ink), [told.times, ...told.columns], place);
  place.parentElement.classList.add("is-live");
  plot.over.addEventListener("click", () => open(plot, told));
  new ResizeObserver(() => plot.setSize({ width: place.clientWidth, height: HEIGHT })).observe(place);
}

function options(told, place, ink) {
  const colour = (name) => ink.getPropertyValue(name).trim();
  const zone = place.dataset.zone;
  return {
    width: place.clientWidth,
    height: HEIGHT,
    tzDate: (seconds) => (zone ? uPlot.tzDate(new Date(seconds * 1000), zone) : new Date(seconds * 1000)),
    cursor: { points: { size: POINT }, focus: { prox: 24 }, drag: { x: true, y: false } },
    scales: { x: { range: (plot, low, high) => around(told.times, low, high) }, beside: {} },
    axes: axes(told, colour),
    series: [
      { label: "Visit", value: (plot, at) => (at === null ? "" : day(at, zone)) },
      ...told.names.map((name, place) => line(told, name, place, colour)),
    ],
    hooks: { draw: [(plot) => drawLevels(plot, told, colour), (plot) => drawMarks(plot, told, colour)] },
  };
}

function around(times, low, high) {
  if (times.length === 1) return [times[0] - WEEK, times[0] + WEEK];
  const room = (high - low) * MARGIN;
  return [low - room, high + room];
}

function day(at, zone) {
  return new Date(at * 1000).toLocaleDateString("en-GB", {
    day: "2-digit", month: "short", year: "numeric", timeZone: zone || undefined,
  });
}

function axes(told, colour) {
  const plain = { stroke: colour("--ink-soft"), grid: { stroke: colour("--line"), width: 1 }, ticks: { show: false } };
  const beside = { ...plain, scale: "beside", side: 1, grid: { show: false }, label: unitOf(told, told.beside) };
  return [plain, { ...plain, label: told.units[0] }, ...(told.beside === null ? [] : [beside])];
}

function unitOf(told, place) {
  return place === null ? "" : `${told.names[place]}, ${told.units[place]}`;
}

function line(told, name, place, colour) {
  const aside = place === told.beside;
  return {
    label: `${name}, ${told.units[place]}`,
    scale: aside ? "beside" : "y",
    stroke: aside ? colour("--line-strong") : colour("--ink"),
    width: aside ? 1 : 2,
    dash: aside ? [2, 6] : DASHES[place % DASHES.length],
    spanGaps: true,
    points: { show: true, size: aside ? 4 : POINT, fill: colour("--panel") },
    value: (plot, value) => (value === null ? "–" : value.toPrecision(3)),
  };
}

function drawLevels(plot, told, colour) {
  for (const level of told.levels) {
    const y = plot.valToPos(level, "y", true);
    if (y < plot.bbox.top || y > plot.bbox.top + plot.bbox.height) continue;
    stroke(plot.ctx, colour("--watch"), [6, 6], [plot.bbox.left, y], [plot.bbox.left + plot.bbox.width, y]);
  }
}

function drawMarks(plot, told, colour) {
  for (const at of told.marks) {
    const x = plot.valToPos(at, "x", true);
    if (x < plot.bbox.left || x > plot.bbox.left + plot.bbox.width) continue;
    stroke(plot.ctx, colour("--watch"), [], [x, plot.bbox.top], [x, plot.bbox.top + plot.bbox.height]);
  }
}

function stroke(ctx, ink, dash, from, to) {
  ctx.save();
  ctx.strokeStyle = ink;
  ctx.lineWidth = devicePixelRatio;
  ctx.setLineDash(dash);
  ctx.beginPath();
  ctx.moveTo(...from);
  ctx.lineTo(...to);
  ctx.stroke();
  ctx.restore();
}

function open(plot, told) {
  const near = plot.cursor.idx;
  if (near === null || near === undefined) return;
  const away = Math.abs(plot.valToPos(told.times[near], "x") - plot.cursor.left);
  if (away <= POINT) location.assign(`/office/calls/${told.calls[near]}`);
}
