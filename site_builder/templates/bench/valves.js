// Valves of a whole rank.
(function (kit) {
  "use strict";
  const { Refused, read, put, clear } = kit;
  const { own, metres, areal, atHand, answered, chosen, toCut, noteName, draw, fillCompact } = kit.valves;
  const PLATES = [1, 2, 3];

  function plates(form) {
    const found = [];
    for (const place of PLATES) {
      const [note, length, width] = ["note", "length", "width"].map((name) => form.elements[`${name}${place}`]);
      if (!note.value) continue;
      const sides = [length, width].map((field) => {
        const value = read(field);
        if (value === null) throw new Refused(field, "", field.dataset.accepted);
        return value;
      });
      if (found.some(({ midi }) => midi === Number(note.value))) {
        throw new Refused(note, noteName(Number(note.value)), "each note once", `Plate ${place} sounds`);
      }
      found.push({ midi: Number(note.value), sides });
    }
    return found;
  }

  function asked(form) {
    const { lowest, count, pitch, posture } = form.elements;
    const given = {
      lowest: Number(lowest.value), count: read(count), pitch: read(pitch), posture: posture.value,
      plates: plates(form), taken: [], typed: {}, reads: [],
    };
    if (bench.outside(bench.last_note(given.lowest, given.count), 0, own.highest)) {
      throw new Refused(count, `${given.count}`, `so many that the highest note is no higher than ${noteName(own.highest)}`);
    }
    for (const [id, one] of Object.entries(own.stocks)) {
      const box = form.elements[`take-${id}`];
      if (!box || !box.checked) continue;
      const [hangs, weighs] = ["hangs", "weighs"].map((name) => read(form.elements[`${name}-${id}`]));
      given.taken.push(id);
      if (hangs === null && weighs === null) continue;
      given.typed[id] = bench.with_readings(one.numbers, metres(hangs), areal(weighs), 0, own.factor, one.known);
      given.reads.push({ id, hangs, weighs });
    }
    if (!given.taken.length) throw new Refused(form.querySelector("[type=checkbox]"), "", "a stock ticked", "Valve stock");
    return given;
  }

  // Gives the choice for both slots of each note, the inside one first, as the command has them.
  function choices(given, stocks) {
    const notes = bench.notes_up(given.lowest, given.count);
    const midis = given.plates.map(({ midi }) => midi);
    const read = [0, 1].map((place) => given.plates.map(({ sides }) => metres(sides[place])));
    const sizes = [0, 1].map((place) =>
      bench.sizes_of_rank(notes, given.pitch, ...own.lines[place], midis, read[place]));
    return notes.flatMap((midi, at) => {
      const typed = midis.indexOf(midi);
      const [length, width] = [0, 1].map((place) => (typed < 0 ? sizes[place][at][1] : read[place][typed]));
      const frequency = bench.frequency(midi, given.pitch);
      return ["inside", "outside"].map((face, place) => {
        const slot = bench.slot_numbers_of(length, width, own.postures[given.posture][place], frequency, 0);
        return { ...answered(slot, frequency, own.wall, own.edge, stocks), face, note: noteName(midi), measured: typed >= 0 };
      });
    });
  }

  const alike = (one) => JSON.stringify([one.decided, one.sizes, one.found, one.limits, one.without]);
  const allAlike = (found) => found.every((one, place) => place % 2 === 1 || alike(one) === alike(found[place + 1]));

  // Gives the runs of notes with one choice: [{ face, ones }].
  function runs(found) {
    const both = allAlike(found);
    return (both ? ["both"] : ["inside", "outside"]).flatMap((face) => {
      const made = [];
      for (const one of found) {
        if (!both && one.face !== face) continue;
        const run = made.at(-1);
        if (run && chosen(run.ones[0]) === chosen(one)) run.ones.push(one);
        else made.push({ face, ones: [one] });
      }
      return made;
    });
  }

  function runSaid({ face, ones }) {
    const [first, last] = [ones[0], ones.at(-1)];
    const hang = (one) => bench.hang_said(one.window[0], one.window[1], own.us);
    return bench.run_words(first.note, last.note, face === "both" ? "" : ` ${face}`, chosen(first), ones.length, hang(first), hang(last));
  }

  const sure = (one) => one.measured && one.verdict === 0;

  function noteRow(one) {
    const mark = sure(one) || !toCut(one.kind) ? "" : " ?";
    return bench.rank_row(one.note + mark, one.slot, one.sizes, one.kind, one.found, one.ratios, one.window, own.words.nearest, own.us);
  }

  function fillNotes(form, made) {
    const body = form.querySelector("[data-rows=notes]");
    const rows = made.flatMap(({ face, ones }) => [
      [chosen(ones[0]) + (face === "both" ? "" : `, ${face}`)],
      ...ones.filter((one) => face !== "both" || one.face === "inside").map(noteRow),
    ]);
    fillCompact(body, rows);
  }

  function drawWindow(form, found, stocks, said) {
    const numbers = stocks.map((one) => one.numbers);
    const bases = new Set(found.map((one) => one.stock));
    const kinds = new Set(stocks.filter(({ id }) => bases.has(id)).map(({ kind }) => kind));
    const shown = stocks.filter((one) => one.numbers[10] > 0 && (bases.has(one.id) || kinds.has(one.kind)));
    const rows = bench.chart_rows(found.map((one) => bench.chart_row(one.slot[0], one.window, one.decided, numbers)));
    const marks = bench.window_marks(rows, shown.map((one) => one.numbers[1]), shown.map(({ id }) => id), own.chart, own.metres, own.length);
    const svg = form.querySelector("[data-chart=window]");
    draw(svg, own.words.title, bench.chart_words(rows, said, own.us), marks);
  }

  function commandLine(form, given) {
    const { length, areal: each } = own;
    put(form, "command", `benchbinder valves --lowest ${noteName(given.lowest)} --count ${given.count}` +
      (given.pitch === own.pitch ? "" : ` --pitch ${given.pitch}Hz`) +
      (given.posture === "upright-block" ? "" : ` --posture ${given.posture}`) +
      given.plates.map(({ midi, sides }) => ` --plate ${noteName(midi)}=${sides.join("x")}${length}`).join("") +
      given.taken.map((id) => ` --stock ${id}`).join("") +
      given.reads.map(({ id, hangs, weighs }) =>
        ` --reads ${id}=${hangs === null ? "" : `${hangs}${length}`}${weighs === null ? "" : `@${weighs}${each}`}`).join(""));
  }

  function show(form, shown) {
    for (const place of [form.querySelector("[data-rows=notes]").closest("table"), form.querySelector("[data-chart]").closest("figure")]) {
      place.hidden = !shown;
    }
  }

  function answer(form) {
    const given = asked(form);
    const stocks = atHand(given.taken, given.typed);
    const found = choices(given, stocks);
    const made = runs(found);
    const said = made.map(runSaid);
    clear(form);
    put(form, "summary", `${noteName(given.lowest)} to ${noteName(bench.last_note(given.lowest, given.count))}: ${given.count} plates.`);
    form.querySelector("[data-rows=runs]").replaceChildren(...said.map((line) => {
      const item = document.createElement("li");
      item.append(...kit.inOneLine(line));
      return item;
    }));
    fillNotes(form, made);
    drawWindow(form, found, stocks, said);
    put(form, "odd", found.some((one) => toCut(one.kind) && !sure(one)) ? own.words.odd : "");
    put(form, "note", own.words.two);
    commandLine(form, given);
  }

  // A rank that is chosen fills in its notes, its posture and the plates that the shop measured.
  function follow(form) {
    const rank = own.ranks[form.elements.rank.value];
    if (!rank) return;
    for (const name of ["lowest", "count", "posture"]) form.elements[name].value = rank[name];
    for (const place of PLATES) {
      const plate = rank.plates[place - 1] || ["", "", ""];
      ["note", "length", "width"].forEach((name, at) => { form.elements[`${name}${place}`].value = plate[at]; });
    }
  }

  const form = document.querySelector("form[data-working=valves]");
  if (form && own) form.elements.rank.addEventListener("input", () => follow(form));

  kit.answers.valves = function (form) {
    show(form, false);
    answer(form);
    show(form, true);
  };
})(window.bench_kit);
