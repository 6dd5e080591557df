// A cut list of typed sizes, laid on rectangular pieces.
(function (kit) {
  "use strict";
  const { data, Refused, read, put, clear, fill } = kit;
  const own = data && data.cut;
  const FIRST = 1, SIZES = 6;
  const MOST_ROWS = 60;

  const metres = (value) => bench.in_si(value, own.metres);

  // Gives the sizes typed, as they stand in the command line as well.
  function sizes(form) {
    const found = [];
    for (let number = FIRST; number <= SIZES; number += 1) {
      const fields = ["length", "width", "count"].map((name) => form.elements[`${name}${number}`]);
      const [length, width, count] = fields.map(read);
      const missing = [length, width, count].findIndex((one) => one === null);
      if (missing >= 0 && [length, width, count].every((one) => one === null)) continue;
      if (missing >= 0) throw new Refused(fields[missing], "", fields[missing].dataset.accepted);
      found.push({ length, width, count });
    }
    if (found.length === 0) throw new Refused(form.elements.length1, "", form.elements.length1.dataset.accepted);
    return found;
  }

  function asked(form) {
    const { piece_length, piece_width, pieces, turn, spares, width_step, length_step, gap, margin } = form.elements;
    return {
      strips: sizes(form), piece: [read(piece_length), read(piece_width)], pieces: read(pieces),
      turn: turn.value === "yes", spares: read(spares), step: [read(width_step), read(length_step)],
      gap: read(gap), margin: read(margin),
    };
  }

  function commandLine(form, given) {
    const { unit } = own;
    const strips = given.strips.map(({ length, width, count }) => ` --strip ${length}x${width}${unit}=${count}`);
    put(form, "command", `benchbinder cut${strips.join("")} --piece ${given.piece.join("x")}${unit}` +
      (given.pieces === null ? "" : ` --pieces ${given.pieces}`) + (given.turn ? " --turn" : "") +
      ` --spares ${given.spares}% --step ${given.step.join("x")}${unit} --gap ${given.gap}${unit} --margin ${given.margin}${unit}`);
  }

  // Puts the rows of a plan under a head for each piece.
  function grouped(plan) {
    const shown = plan.slice(0, MOST_ROWS).flatMap(([piece, ...cells], place, all) =>
      place && all[place - 1][0] === piece ? [cells] : [[`Piece ${piece}`], cells]);
    return plan.length > MOST_ROWS ? [...shown, ["and so on: see the command"]] : shown;
  }

  kit.answers.cut = function (form) {
    const given = asked(form);
    const [widthStep, lengthStep] = given.step.map(metres);
    const rows = bench.cut_list(given.strips.map((one) => metres(one.length)), given.strips.map((one) => metres(one.width)),
      given.strips.map((one) => one.count), lengthStep, widthStep);
    const list = bench.listed(rows, widthStep, lengthStep, bench.share_of_percent(given.spares), own.least);
    const sides = list.map((one) => one.slice(0, 2));
    const counts = list.map((one) => one[4]);
    const piece = [metres(given.piece[1]), metres(given.piece[0])];
    const rule = [metres(given.gap), metres(given.margin), widthStep];
    const most = given.pieces === null ? own.most : given.pieces;
    const [turned, area, lanes, places] = bench.laid_out(sides, counts, piece, most, rule, given.turn);
    const cutInto = bench.square_metres(area);
    const used = bench.plan_share(places, sides, cutInto);
    const plan = bench.plan_rows(places, sides, rule[0], own.us);
    clear(form);
    fill(form, "list", bench.list_rows(list, own.us));
    kit.valves.fillCompact(form.querySelector("[data-rows=plan]"), grouped(plan));
    put(form, "summary", bench.list_said(list));
    put(form, "long", bench.long_rows(rows, list, widthStep, lengthStep, own.us).join("; "));
    put(form, "pieces", bench.pieces_said(bench.pieces_of(places), piece, places.length, lanes, turned === 1, used, cutInto, own.us));
    put(form, "buy", bench.to_buy_said(sides, bench.strips_missing(counts, places), own.use[0], own.use[1], own.us));
    commandLine(form, given);
  };
})(window.bench_kit);
