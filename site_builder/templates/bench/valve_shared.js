// What the workings of one valve and of a whole rank share: slots, stocks, choices, the chart.
(function (kit) {
  "use strict";
  const { data, Refused, read } = kit;
  const own = data && data.valves;
  const NAMESPACE = "http://www.w3.org/2000/svg";
  const ONE_STOCK = 1, WITH_TOPPER = 2, WITH_HELPER = 3, WITHOUT = 4, NOT_MEASURED = 5, NONE_SERVES = 6;

  const metres = (value) => (value === null ? 0 : bench.in_si(value, own.metres));
  const areal = (value) => (value === null ? 0 : bench.in_si(value, own.kilograms));
  const noteName = (midi) => bench.name_of(midi, own.notes);
  const toCut = (kind) => kind === ONE_STOCK || kind === WITH_TOPPER || kind === WITH_HELPER;

  // Gives the stocks to choose from, in the order of the tables: [{ id, numbers }]. `taken` are
  // those that may stand alone; a film may lie over any of them.
  function atHand(taken, typed = {}) {
    return Object.entries(own.stocks)
      .filter(([id, one]) => taken.includes(id) || one.kind === "film")
      .map(([id, one]) => {
        const alone = taken.includes(id);
        const numbers = [...(typed[id] && alone ? typed[id] : one.numbers)];
        if (!alone) numbers[11] = 0;
        return { id, kind: one.kind, numbers };
      });
  }

  // Gives the answer for one slot by the names of slot_answer.ANSWER.
  function answered(slot, frequency, wall, edge, stocks) {
    const numbers = stocks.map((one) => one.numbers);
    const given = bench.slot_answer(slot, frequency, wall, edge, false, own.rules, own.openings, own.pressures,
      own.limits, own.no_valve, own.tongue, numbers, own.mass);
    const one = Object.fromEntries(own.answer.map((name, place) => [name, given[place]]));
    const [kind, place, topper] = one.decided;
    const [verdict, margin] = one.verdict.length ? one.verdict : [0, 0];
    return {
      ...one, slot, frequency, kind, verdict, margin,
      stock: place >= 0 ? stocks[place].id : "",
      topper: topper >= 0 ? stocks[topper].id : "",
    };
  }

  const chosen = (one) => bench.chosen_words(one.kind, one.stock, one.topper);

  function reasons(one) {
    if (one.kind === WITHOUT) return bench.without_said(one.without, false);
    if (!one.found.length) return [];
    const said = bench.reasons_of(one.found, one.low, one.high, one.ratios, one.limits, one.passed, one.unsure, own.words.abouts, own.us);
    if (one.kind === WITH_HELPER) return said.map((line) => line.replaceAll(own.words.rejected, own.words.alone));
    return one.kind === NONE_SERVES ? [...said, own.words.look_for] : said;
  }

  function told(one) {
    if (!one.found.length) return [];
    return bench.told_of(one.found, one.ratios, one.limits, one.sizes[4], one.frequency, own.told, own.words.abouts, own.us);
  }

  // The marks of a chart as elements, as site_builder/parts/window_charts.py makes them.

  const INK = "#1a1a1a", PAPER = "#ffffff", TINT = "#e9eeee";
  const STROKES = {
    region: (points) => [["polygon", { points, fill: TINT }]],
    line: (points, width, dash) => [["polyline", { points, fill: "none", stroke: INK, "stroke-width": width, "stroke-dasharray": dash }]],
    dot: (cx, cy, filled, inner) => [
      ["circle", { cx, cy, r: "2.6", fill: filled === "yes" ? INK : PAPER, stroke: INK, "stroke-width": "1.3" }],
      ...(inner === "yes" ? [["circle", { cx, cy, r: "1", fill: INK }]] : []),
    ],
    words: (x, y, anchor, text) => [["text", {
      x, y, fill: INK, stroke: PAPER, "stroke-width": "3", "stroke-linejoin": "round", "paint-order": "stroke",
      "text-anchor": anchor, "font-size": "11" }, text]],
  };

  function drawnMark([kind, ...rest]) {
    return STROKES[kind](...rest).map(([tag, attributes, text]) => {
      const made = document.createElementNS(NAMESPACE, tag);
      for (const [name, value] of Object.entries(attributes)) if (value) made.setAttribute(name, value);
      if (text) made.textContent = text;
      return made;
    });
  }

  function draw(svg, title, words, marks) {
    const heads = ["title", "desc"].map((tag, place) => {
      const made = document.createElementNS(NAMESPACE, tag);
      made.textContent = place ? words : title;
      return made;
    });
    svg.setAttribute("aria-label", words);
    svg.replaceChildren(...heads, ...marks.flatMap(drawnMark));
  }

  // Fills a compact table: each cell with the words of its column; a lone cell heads a group.
  function fillCompact(body, lines) {
    const heads = [...body.closest("table").querySelectorAll("thead th")].map((one) => one.textContent);
    body.replaceChildren(...lines.map((cells) => {
      const row = document.createElement("tr");
      const group = cells.length === 1;
      row.setAttribute("role", "row");
      if (group) row.className = "group";
      cells.forEach((text, place) => {
        const cell = document.createElement(place || group ? "td" : "th");
        cell.setAttribute("role", place || group ? "cell" : "rowheader");
        if (group) cell.colSpan = heads.length;
        if (place) cell.dataset.label = heads[place];
        cell.append(...kit.inOneLine(text));
        row.append(cell);
      });
      return row;
    }));
  }

  kit.valves = {
    own, metres, areal, noteName, toCut, atHand, answered, chosen, reasons, told, draw, fillCompact,
    WITHOUT, NOT_MEASURED, Refused, read,
  };
})(window.bench_kit);
